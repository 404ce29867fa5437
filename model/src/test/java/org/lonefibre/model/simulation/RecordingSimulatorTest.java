package org.lonefibre.model.simulation;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.lonefibre.model.endplate.EndPlateSettings;
import org.lonefibre.model.fibre.FibreGeometry;
import org.lonefibre.model.motorunit.FibreScenario;
import org.lonefibre.model.motorunit.FiringSettings;
import org.lonefibre.model.motorunit.MotorUnitScenario;
import org.lonefibre.model.simulation.RecordingTruth.MotorUnitTruth;
import org.lonefibre.signal.recording.Channel;

final class RecordingSimulatorTest {

  private static final FibreGeometry NEAR = FibreGeometry.defaults().withDistanceMm(0.15);
  private static final FibreGeometry FAR = FibreGeometry.defaults().withDistanceMm(0.30);

  private static MotorUnitScenario unit(String name, EndPlateSettings paired) {
    return MotorUnitScenario.of(
        name,
        FiringSettings.defaults(),
        List.of(
            FibreScenario.of(name + "F1", NEAR, 0, EndPlateSettings.gaussian(15)),
            FibreScenario.of(name + "F2", FAR, 900, paired)));
  }

  private static SimulationScenario twoUnits() {
    return SimulationScenario.defaults()
        .withUnits(
            List.of(
                unit("U1", EndPlateSettings.gaussian(20)),
                unit("U2", EndPlateSettings.gaussian(25).withBlockingProbability(0.2))));
  }

  private static double[] samples(SimulatedRecording recording, int number) {
    Channel channel = recording.channels().get(number);
    double[] samples = new double[(int) channel.sampleCount()];
    recording.read(channel, 0, samples, 0, samples.length);
    return samples;
  }

  @Test
  @Tag("property")
  void aSiteOfTenSecondsTakesLessThanHalfASecondOnceWarm() {
    RecordingSimulator simulator = new RecordingSimulator();
    SimulationScenario scenario = twoUnits().withDurationS(10);
    for (int i = 0; i < 3; i++) {
      simulator.simulate(scenario, i);
    }
    long start = System.nanoTime();
    for (int i = 0; i < 4; i++) {
      simulator.simulate(scenario, i);
    }
    // Ten times the promised half second: other work may share the machine.
    double seconds = (System.nanoTime() - start) / 4e9;
    assertThat(seconds).isLessThan(5);
  }

  @Test
  @Tag("property")
  void blockedFibresHaveNoArrivalAndAreCounted() {
    RecordingTruth truth = new RecordingSimulator().simulate(twoUnits(), 3).truth();
    MotorUnitTruth unit = truth.motorUnits().get(1);
    long blocked = unit.fibres().get(1).arrivalTimesS().stream().filter(t -> t == null).count();
    assertThat(unit.pairs().get(0).trigger()).isEqualTo("U2F1");
    assertThat(unit.pairs().get(0).blockingPercent())
        .isCloseTo(100.0 * blocked / unit.dischargeTimesS().size(), within(1e-9))
        .isBetween(8.0, 35.0);
    assertThat(truth.motorUnits().get(0).pairs().get(0).blockingPercent()).isZero();
  }

  @Test
  @Tag("analytic")
  void gaussianEndPlatesGiveTheExpectedJitter() {
    RecordingTruth truth =
        new RecordingSimulator().simulate(twoUnits().withDurationS(120), 5).truth();
    double expected = 2 / Math.sqrt(Math.PI) * Math.sqrt(15 * 15 + 20 * 20);
    assertThat(truth.motorUnits().get(0).pairs().get(0).expectedJitterUs())
        .isCloseTo(expected, within(1e-3));
    Double realised = truth.motorUnits().get(0).pairs().get(0).meanConsecutiveDifferenceUs();
    assertThat(realised).isNotNull().isCloseTo(expected, within(expected * 0.1));
  }

  @Test
  @Tag("analytic")
  void aPotentialIsRecordedWhereTheTruthSaysItArrived() {
    SimulationScenario scenario =
        twoUnits()
            .withUnits(List.of(unit("U1", EndPlateSettings.gaussian(20))))
            .withBackground(BackgroundSettings.none())
            .withAmplifier(AmplifierSettings.defaults().withNoiseUv(0));
    SimulatedRecording recording = new RecordingSimulator().simulate(scenario, 9);
    double[] samples = samples(recording, 0);
    for (Double arrival : recording.truth().motorUnits().get(0).fibres().get(0).arrivalTimesS()) {
      assertThat(arrival).isNotNull();
      int place = (int) Math.round(arrival * 50_000);
      int steepest = place;
      for (int i = place - 15; i <= place + 15; i++) {
        if (Math.abs(samples[i + 1] - samples[i - 1])
            > Math.abs(samples[steepest + 1] - samples[steepest - 1])) {
          steepest = i;
        }
      }
      assertThat(Math.abs(steepest - arrival * 50_000)).isLessThanOrEqualTo(1.0);
    }
  }

  @Test
  @Tag("property")
  void noiseHasTheStatedDeviation() {
    SimulationScenario scenario =
        SimulationScenario.defaults()
            .withBackground(BackgroundSettings.none())
            .withAmplifier(AmplifierSettings.defaults().withNoiseUv(12));
    double[] samples = samples(new RecordingSimulator().simulate(scenario, 1), 0);
    double sum = 0;
    for (double sample : samples) {
      sum += sample * sample;
    }
    assertThat(Math.sqrt(sum / samples.length)).isCloseTo(12, within(0.1));
  }

  @Test
  @Tag("contract")
  void aReadBeyondTheEndIsRefused() throws Exception {
    try (SimulatedRecording recording =
        new RecordingSimulator().simulate(SimulationScenario.defaults(), 1)) {
      Channel channel = recording.channels().get(0);
      assertThatIllegalArgumentException()
          .isThrownBy(() -> recording.read(channel, channel.sampleCount() - 1, new double[4], 0, 2))
          .withMessageContaining("outside");
    }
  }
}
