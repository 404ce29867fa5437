package org.lonefibre.model.simulation;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lonefibre.model.fibre.FibrePotentialSolver;
import org.lonefibre.model.motorunit.AxonResponse;
import org.lonefibre.model.motorunit.MotorUnit;
import org.lonefibre.model.motorunit.MotorUnitScenario;
import org.lonefibre.model.motorunit.UnitActivity;
import org.lonefibre.model.simulation.RecordingTruth.EndPlateTruth;
import org.lonefibre.model.simulation.RecordingTruth.MotorUnitTruth;
import org.lonefibre.model.simulation.RecordingTruth.StimulationTruth;
import org.lonefibre.model.simulation.StimulationScenario.Subliminal;
import org.lonefibre.signal.random.RandomStream;

/**
 * Makes recordings from scenarios.
 *
 * <ul>
 *   <li>Units discharge from 10 ms after the start to 25 ms before the end, so that every potential
 *       with a usual offset lies within the recording.
 *   <li>Stimuli too late for their responses to be recorded are not given.
 *   <li>The same scenario and seed give the same bits; units, fibres, background and noise have
 *       streams of their own.
 *   <li>Thread rule: immutable.
 * </ul>
 */
public final class RecordingSimulator {

  private static final double STEP_US = 1;
  private static final double LEAD_IN_S = 0.01;
  private static final double LEAD_OUT_S = 0.025;

  /** Makes a recording from a seed. */
  public SimulatedRecording simulate(SimulationScenario scenario, long seed) {
    return simulate(scenario, RandomStream.of(seed));
  }

  /** Makes a recording from a stream, whose name alone matters. */
  public SimulatedRecording simulate(SimulationScenario scenario, RandomStream stream) {
    AmplifierSettings amplifier = scenario.amplifier();
    FibrePotentialSolver solver = scenario.shapes().solver(scenario.tissue());
    Canvas canvas =
        new Canvas(
            scenario.samplingRateHz(),
            scenario.durationS(),
            amplifier,
            scenario.shapes().reddeningRatio());
    new Background(scenario.background(), solver)
        .addTo(canvas, scenario.durationS(), amplifier.highPassHz(), stream.child("background"));
    StimulationScenario stimulation = scenario.stimulation();
    double[] stimuli =
        stimulation == null
            ? new double[0]
            : new StimulusTrain(stimulation)
                .timesS(scenario.durationS() - 2 * LEAD_OUT_S, stream.child("stimuli"));
    List<MotorUnitTruth> units = new ArrayList<>();
    List<EndPlateTruth> endPlates = new ArrayList<>();
    UnitPainter painter =
        new UnitPainter(canvas, scenario.shapes().source(scenario.tissue()), scenario);
    for (MotorUnitScenario unit : scenario.units()) {
      RandomStream unitStream = stream.child("unit").child(unit.id());
      UnitActivity activity = activity(unit, scenario, stimuli, unitStream);
      double[] amplitudes = painter.paint(activity);
      if (Arrays.stream(amplitudes).noneMatch(uv -> uv >= scenario.namedFromUv())) {
        continue;
      }
      TruthKeeper keeper =
          new TruthKeeper(
              activity,
              amplitudes,
              stimulation == null ? unit.firing().intervalDeviationMs() : 0,
              scenario.namedFromUv());
      units.add(stimulation == null ? keeper.unitWithPairs() : keeper.unitWithoutPairs());
      endPlates.addAll(stimulation == null ? List.of() : keeper.listEndPlates());
    }
    for (MotorUnitScenario unit : scenario.distant()) {
      painter.paintDistant(
          activity(unit, scenario, stimuli, stream.child("distant").child(unit.id())));
    }
    if (stimulation != null && stimulation.artefactUv() != 0) {
      Template artefact = StimulusTrain.artefact(stimulation, STEP_US, canvas.lowPassHz());
      for (double timeS : stimuli) {
        canvas.add(artefact, timeS);
      }
    }
    RecordingTruth truth =
        new RecordingTruth(
            scenario.site() + ".edf",
            scenario.samplingRateHz(),
            amplifier.noiseUv(),
            units,
            stimulationTruth(stimulation, stimuli, endPlates));
    return canvas.finish(
        stimuli, stimulation == null ? StimulusMarker.NONE : stimulation.marker(), stream, truth);
  }

  private static UnitActivity activity(
      MotorUnitScenario unit, SimulationScenario scenario, double[] stimuli, RandomStream stream) {
    StimulationScenario stimulation = scenario.stimulation();
    return stimulation == null
        ? new MotorUnit(unit).fire(LEAD_IN_S, scenario.durationS() - LEAD_OUT_S, stream)
        : new MotorUnit(unit).follow(stimuli, response(unit, stimulation, stimuli, stream), stream);
  }

  private static AxonResponse response(
      MotorUnitScenario unit,
      StimulationScenario stimulation,
      double[] stimuli,
      RandomStream stream) {
    AxonResponse response = new AxonResponse(stimuli.length);
    Subliminal subliminal = stimulation.subliminal();
    if (!subliminal.unitId().equals(unit.id())) {
      return response;
    }
    RandomStream own = stream.child("subliminal");
    for (int i = 0; i < stimuli.length; i++) {
      boolean excited = own.happens(subliminal.firingProbability());
      double delayUs = subliminal.delayUs() + subliminal.deviationUs() * own.gaussianRatio();
      double place = (i + 0.5) / stimuli.length;
      if (place > subliminal.fromRatio() && place < subliminal.toRatio()) {
        response.delay(i, delayUs);
        if (!excited) {
          response.miss(i);
        }
      }
    }
    return response;
  }

  private static @Nullable StimulationTruth stimulationTruth(
      @Nullable StimulationScenario stimulation, double[] stimuli, List<EndPlateTruth> endPlates) {
    if (stimulation == null) {
      return null;
    }
    List<Double> times = new ArrayList<>();
    for (double timeS : stimuli) {
      times.add(timeS);
    }
    return new StimulationTruth(times, endPlates);
  }
}
