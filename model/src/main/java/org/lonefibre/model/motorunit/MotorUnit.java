package org.lonefibre.model.motorunit;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.lonefibre.model.endplate.EndPlate;
import org.lonefibre.model.endplate.Transmissions;
import org.lonefibre.signal.random.RandomStream;

/**
 * Runs a motor unit.
 *
 * <ul>
 *   <li>Every chance has a stream of its own, named by unit, branch, end-plate and fibre: another
 *       fibre or another block changes nothing else.
 *   <li>Thread rule: immutable.
 * </ul>
 */
public final class MotorUnit {

  private final MotorUnitScenario scenario;

  /** The unit of a scenario. */
  public MotorUnit(MotorUnitScenario scenario) {
    this.scenario = scenario;
  }

  /**
   * Lets it fire of its own.
   *
   * @param fromS first time at which it may discharge
   * @param toS time before which it must
   * @param stream where chance comes from
   */
  public UnitActivity fire(double fromS, double toS, RandomStream stream) {
    double[] times =
        new Firing(scenario.firing()).dischargeTimesS(fromS, toS, stream.child("firing"));
    return follow(times, new AxonResponse(times.length), stream);
  }

  /**
   * Lets it follow stimuli.
   *
   * @param stimulusTimesS times of the stimuli, rising
   * @param response what they do to the axon
   * @param stream where chance comes from
   */
  public UnitActivity follow(double[] stimulusTimesS, AxonResponse response, RandomStream stream) {
    double[] times = stimulusTimesS.clone();
    Map<String, Transmissions> endPlates = new HashMap<>();
    Map<String, boolean[]> conducted = new HashMap<>();
    Map<String, double[]> branchDelays = new HashMap<>();
    for (AxonBranch branch : scenario.branches()) {
      RandomStream branchStream = stream.child("branch").child(branch.id());
      boolean[] conducts = new boolean[times.length];
      double[] delays = new double[times.length];
      for (int i = 0; i < times.length; i++) {
        conducts[i] = !branchStream.happens(branch.blockingProbability());
        delays[i] = branch.standardDeviationUs() * branchStream.gaussianRatio();
      }
      conducted.put(branch.id(), conducts);
      branchDelays.put(branch.id(), delays);
    }
    double[] axon = gaussian(times.length, scenario.axonDeviationUs(), stream.child("axon"));
    List<FibreScenario> fibres = scenario.fibres();
    boolean[][] present = new boolean[fibres.size()][times.length];
    double[][] arrivals = new double[fibres.size()][times.length];
    for (int f = 0; f < fibres.size(); f++) {
      FibreScenario fibre = fibres.get(f);
      Transmissions endPlate =
          endPlates.computeIfAbsent(
              fibre.endPlateId(),
              id ->
                  new EndPlate(fibre.endPlate()).transmit(times, stream.child("plate").child(id)));
      double[] own =
          gaussian(
              times.length, fibre.conductionDeviationUs(), stream.child("fibre").child(fibre.id()));
      boolean[] branch = conducted.get(fibre.branchId());
      double[] branchDelay = branchDelays.get(fibre.branchId());
      for (int i = 0; i < times.length; i++) {
        present[f][i] = response.excited(i) && endPlate.present(i) && (branch == null || branch[i]);
        if (present[f][i]) {
          double delayUs =
              fibre.offsetUs()
                  + response.delayUs(i)
                  + axon[i]
                  + (branchDelay == null ? 0 : branchDelay[i])
                  + endPlate.delayUs(i)
                  + own[i];
          arrivals[f][i] = times[i] + delayUs * 1e-6;
        }
      }
    }
    return new UnitActivity(scenario, times, present, arrivals);
  }

  private static double[] gaussian(int count, double deviationUs, RandomStream stream) {
    double[] values = new double[count];
    for (int i = 0; i < count; i++) {
      values[i] = deviationUs * stream.gaussianRatio();
    }
    return values;
  }
}
