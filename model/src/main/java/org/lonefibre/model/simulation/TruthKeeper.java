package org.lonefibre.model.simulation;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lonefibre.model.endplate.ExpectedJitter;
import org.lonefibre.model.motorunit.AxonBranch;
import org.lonefibre.model.motorunit.FibreScenario;
import org.lonefibre.model.motorunit.MotorUnitScenario;
import org.lonefibre.model.motorunit.UnitActivity;
import org.lonefibre.model.simulation.RecordingTruth.EndPlateTruth;
import org.lonefibre.model.simulation.RecordingTruth.FibreTruth;
import org.lonefibre.model.simulation.RecordingTruth.MotorUnitTruth;
import org.lonefibre.model.simulation.RecordingTruth.PairTruth;

/** Writes down what a unit did. */
final class TruthKeeper {

  private static final double CONTAMINATION_US = 500;
  private static final double CONTAMINATION_RATIO = 0.1;

  private final UnitActivity activity;
  private final MotorUnitScenario scenario;
  private final double[] amplitudesUv;
  private final double intervalDeviationMs;
  private final double namedFromUv;

  /**
   * @param activity what the unit did
   * @param amplitudesUv of its fibres, in their order
   * @param intervalDeviationMs standard deviation of the intervals between its discharges
   * @param namedFromUv fibres of smaller amplitude are left out
   */
  TruthKeeper(
      UnitActivity activity,
      double[] amplitudesUv,
      double intervalDeviationMs,
      double namedFromUv) {
    this.namedFromUv = namedFromUv;
    this.activity = activity;
    this.scenario = activity.scenario();
    this.amplitudesUv = amplitudesUv;
    this.intervalDeviationMs = intervalDeviationMs;
  }

  private boolean isNamed(int fibre) {
    return amplitudesUv[fibre] >= namedFromUv;
  }

  MotorUnitTruth unitWithPairs() {
    int trigger = 0;
    for (int f = 1; f < amplitudesUv.length; f++) {
      if (amplitudesUv[f] > amplitudesUv[trigger]) {
        trigger = f;
      }
    }
    List<PairTruth> pairs = new ArrayList<>();
    for (int f = 0; f < amplitudesUv.length; f++) {
      if (f != trigger && isNamed(f)) {
        pairs.add(pair(trigger, f));
      }
    }
    return unit(pairs);
  }

  MotorUnitTruth unitWithoutPairs() {
    return unit(List.of());
  }

  List<EndPlateTruth> listEndPlates() {
    List<EndPlateTruth> truths = new ArrayList<>();
    for (int f = 0; f < amplitudesUv.length; f++) {
      if (!isNamed(f)) {
        continue;
      }
      FibreScenario fibre = scenario.fibres().get(f);
      double expected =
          new ExpectedJitter()
              .add(law(fibre).endPlate())
              .addGaussian(fibre.conductionDeviationUs())
              .addGaussian(scenario.axonDeviationUs())
              .addGaussian(branchDeviationUs(fibre))
              .meanConsecutiveDifferenceUs(intervalDeviationMs);
      int missing = 0;
      for (int i = 0; i < activity.discharges(); i++) {
        missing += activity.present(f, i) ? 0 : 1;
      }
      truths.add(
          new EndPlateTruth(
              fibre.id(), realisedUs(f, -1), expected, percent(missing, activity.discharges())));
    }
    return truths;
  }

  private MotorUnitTruth unit(List<PairTruth> pairs) {
    List<Double> discharges = new ArrayList<>();
    for (int i = 0; i < activity.discharges(); i++) {
      discharges.add(activity.dischargeTimeS(i));
    }
    List<FibreTruth> fibres = new ArrayList<>();
    for (int f = 0; f < amplitudesUv.length; f++) {
      if (isNamed(f)) {
        fibres.add(fibre(f));
      }
    }
    return new MotorUnitTruth(scenario.id(), discharges, fibres, pairs);
  }

  private FibreTruth fibre(int number) {
    FibreScenario fibre = scenario.fibres().get(number);
    List<@Nullable Double> arrivals = new ArrayList<>();
    for (int i = 0; i < activity.discharges(); i++) {
      arrivals.add(activity.present(number, i) ? activity.arrivalTimeS(number, i) : null);
    }
    return new FibreTruth(
        fibre.id(),
        fibre.geometry().distanceMm(),
        fibre.geometry().diameterUm(),
        fibre.geometry().velocityMPerS(),
        amplitudesUv[number],
        arrivals,
        new ExpectedJitter()
            .add(law(fibre).endPlate())
            .meanConsecutiveDifferenceUs(intervalDeviationMs));
  }

  private PairTruth pair(int trigger, int paired) {
    FibreScenario first = scenario.fibres().get(trigger);
    FibreScenario second = scenario.fibres().get(paired);
    int both = 0;
    int blocked = 0;
    for (int i = 0; i < activity.discharges(); i++) {
      if (activity.present(trigger, i)) {
        both += activity.present(paired, i) ? 1 : 0;
        blocked += activity.present(paired, i) ? 0 : 1;
      }
    }
    return new PairTruth(
        first.id(),
        second.id(),
        realisedUs(paired, trigger),
        expectedPairUs(first, second),
        percent(blocked, both + blocked),
        contaminants(trigger, paired));
  }

  private double expectedPairUs(FibreScenario first, FibreScenario second) {
    ExpectedJitter expected =
        new ExpectedJitter()
            .addGaussian(first.conductionDeviationUs())
            .addGaussian(second.conductionDeviationUs());
    if (!first.endPlateId().equals(second.endPlateId())) {
      expected.add(law(second).endPlate()).subtract(law(first).endPlate());
    }
    if (!first.branchId().equals(second.branchId())) {
      expected.addGaussian(branchDeviationUs(first)).addGaussian(branchDeviationUs(second));
    }
    return expected.meanConsecutiveDifferenceUs(intervalDeviationMs);
  }

  /** The fibre whose law the end-plate of this one follows: the first that names it. */
  private FibreScenario law(FibreScenario fibre) {
    for (FibreScenario candidate : scenario.fibres()) {
      if (candidate.endPlateId().equals(fibre.endPlateId())) {
        return candidate;
      }
    }
    return fibre;
  }

  private double branchDeviationUs(FibreScenario fibre) {
    for (AxonBranch branch : scenario.branches()) {
      if (branch.id().equals(fibre.branchId())) {
        return branch.standardDeviationUs();
      }
    }
    return 0;
  }

  private List<String> contaminants(int trigger, int paired) {
    List<String> ids = new ArrayList<>();
    for (int f = 0; f < amplitudesUv.length; f++) {
      if (f != trigger
          && f != paired
          && isNamed(f)
          && (contaminates(f, trigger) || contaminates(f, paired))) {
        ids.add(scenario.fibres().get(f).id());
      }
    }
    return ids;
  }

  private boolean contaminates(int contaminant, int fibre) {
    double apartUs =
        scenario.fibres().get(contaminant).offsetUs() - scenario.fibres().get(fibre).offsetUs();
    return Math.abs(apartUs) <= CONTAMINATION_US
        && amplitudesUv[contaminant] >= CONTAMINATION_RATIO * amplitudesUv[fibre];
  }

  /** Of a fibre against another, or against the discharge if there is none (-1). */
  private @Nullable Double realisedUs(int fibre, int against) {
    double sum = 0;
    int count = 0;
    double last = 0;
    boolean lastPresent = false;
    for (int i = 0; i < activity.discharges(); i++) {
      boolean present = activity.present(fibre, i) && (against < 0 || activity.present(against, i));
      if (present) {
        double from = against < 0 ? activity.dischargeTimeS(i) : activity.arrivalTimeS(against, i);
        double interval = (activity.arrivalTimeS(fibre, i) - from) * 1e6;
        if (lastPresent) {
          sum += Math.abs(interval - last);
          count++;
        }
        last = interval;
      }
      lastPresent = present;
    }
    return count == 0 ? null : Double.valueOf(sum / count);
  }

  private static double percent(int part, int whole) {
    return whole == 0 ? 0 : 100.0 * part / whole;
  }
}
