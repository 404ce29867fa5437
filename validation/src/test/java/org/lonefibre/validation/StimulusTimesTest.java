package org.lonefibre.validation;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.util.List;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.lonefibre.analysis.conditioning.ConditionedSignal;
import org.lonefibre.analysis.conditioning.Conditioner;
import org.lonefibre.analysis.conditioning.ConditioningSettings;
import org.lonefibre.analysis.sweep.StimulusFinder;
import org.lonefibre.analysis.sweep.StimulusTrain;
import org.lonefibre.model.simulation.RecordingSimulator;
import org.lonefibre.model.simulation.SimulatedRecording;
import org.lonefibre.model.simulation.SimulationScenario;
import org.lonefibre.model.simulation.StimulationScenario;
import org.lonefibre.signal.random.RandomStream;
import org.lonefibre.signal.recording.FindingCode;

/** Stimuli marked only to the sample, against when they truly were. */
@Tag("property")
class StimulusTimesTest {

  @ParameterizedTest(name = "seed {0}, artefact {1} uV")
  @CsvSource({"1, 3000", "2, 800", "3, -3000"})
  void anArtefactTellsWhatTheMarkerDoesNot(long seed, double artefactUv) throws IOException {
    SimulatedRecording recording = stimulated(seed, artefactUv);
    StimulusTrain train = train(recording);
    assertThat(train.findings()).noneMatch(f -> f.code() == FindingCode.STIMULUS_GRID);
    double real = errorUs(train, recording);
    double stated =
        1e6 * train.errorSamples() / recording.channels().get(0).timeBase().samplingRateHz();
    assertThat(real).as("real error in us").isLessThan(1.5);
    assertThat(stated / real).as("stated over real error").isBetween(0.4, 2.5);
  }

  @ParameterizedTest(name = "seed {0}")
  @CsvSource({"4", "5"})
  void withoutAnArtefactTheGridStaysAndIsSaid(long seed) throws IOException {
    SimulatedRecording recording = stimulated(seed, 0);
    StimulusTrain train = train(recording);
    assertThat(train.findings()).anyMatch(f -> f.code() == FindingCode.STIMULUS_GRID);
    assertThat(errorUs(train, recording)).isGreaterThan(3);
  }

  private static SimulatedRecording stimulated(long seed, double artefactUv) {
    SimulationScenario scenario =
        SimulationScenario.defaults()
            .withStimulation(
                StimulationScenario.defaults().withTrain(9.73, 90).withArtefact(artefactUv, 0.4));
    return new RecordingSimulator().simulate(scenario, RandomStream.of(seed));
  }

  private static StimulusTrain train(SimulatedRecording recording) throws IOException {
    ConditionedSignal signal =
        new Conditioner(ConditioningSettings.singleFibre())
            .condition(recording, recording.channels().get(0));
    return StimulusFinder.fromMarker(recording, recording.channels().get(1), signal);
  }

  /** Deviation of found from true times, their mean left out. */
  private static double errorUs(StimulusTrain train, SimulatedRecording recording) {
    List<Double> truth =
        java.util.Objects.requireNonNull(recording.truth().stimulation()).stimulusTimesS();
    assertThat(train.count()).isEqualTo(truth.size());
    double[] away = new double[train.count()];
    double mean = 0;
    for (int i = 0; i < away.length; i++) {
      double found =
          train.positionSamples(i) / recording.channels().get(0).timeBase().samplingRateHz();
      away[i] = 1e6 * (found - truth.get(i));
      mean += away[i] / away.length;
    }
    double sum = 0;
    for (double one : away) {
      sum += (one - mean) * (one - mean);
    }
    return Math.sqrt(sum / away.length);
  }
}
