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
import org.lonefibre.model.motorunit.MotorUnit;
import org.lonefibre.model.motorunit.MotorUnitScenario;
import org.lonefibre.model.motorunit.SampleMuscleSettings;
import org.lonefibre.model.motorunit.UnitActivity;
import org.lonefibre.model.simulation.RecordingTruth.EndPlateTruth;
import org.lonefibre.model.simulation.RecordingTruth.FibreTruth;
import org.lonefibre.model.simulation.RecordingTruth.MotorUnitTruth;
import org.lonefibre.model.simulation.RecordingTruth.PairTruth;
import org.lonefibre.model.simulation.RecordingTruth.StimulationTruth;
import org.lonefibre.signal.random.RandomStream;
import org.lonefibre.signal.recording.Channel;

final class SampleMuscleRecordingTest {

  private static final StudyScenario MUSCLE =
      StudyScenario.ofMuscle(SampleMuscleSettings.healthy()).withSites(1).withDurationS(2);

  private static double[] samples(SimulatedRecording recording) {
    Channel channel = recording.channels().get(0);
    double[] values = new double[(int) channel.sampleCount()];
    recording.read(channel, 0, values, 0, values.length);
    return values;
  }

  private static double rmsUv(double[] values) {
    double sum = 0;
    for (double value : values) {
      sum += value * value;
    }
    return Math.sqrt(sum / values.length);
  }

  private static SimulationScenario oneFibre(double distanceMm) {
    FibreScenario fibre =
        FibreScenario.of(
            "F",
            FibreGeometry.defaults().withDistanceMm(distanceMm),
            0,
            EndPlateSettings.constant());
    return SimulationScenario.defaults()
        .withDurationS(3)
        .withAmplifier(AmplifierSettings.defaults().withNoiseUv(0).withFullScaleUv(1024))
        .withBackground(BackgroundSettings.none())
        .withUnits(List.of(MotorUnitScenario.of("U", FiringSettings.defaults(), List.of(fibre))));
  }

  @Test
  @Tag("property")
  void whatIsNotNamedIsHeardAllTheSame() {
    SimulatedRecording named = new RecordingSimulator().simulate(oneFibre(0.6), 5);
    SimulatedRecording heard =
        new RecordingSimulator().simulate(oneFibre(0.6).withDistant(List.of(), 1000), 5);
    assertThat(named.truth().motorUnits()).hasSize(1);
    assertThat(heard.truth().motorUnits()).isEmpty();
    double expected = rmsUv(samples(named));
    assertThat(expected).isGreaterThan(1);
    assertThat(rmsUv(samples(heard))).isCloseTo(expected, within(0.02 * expected));
  }

  @Test
  @Tag("property")
  void aSampleMuscleIsNamedFromItsAmplitudeOnWithAllThatContaminates() {
    RecordingTruth truth = MUSCLE.draw(3).simulate(0).truth();
    assertThat(truth.motorUnits()).isNotEmpty();
    int contaminated = 0;
    for (MotorUnitTruth unit : truth.motorUnits()) {
      List<String> ids = unit.fibres().stream().map(FibreTruth::id).toList();
      assertThat(unit.fibres())
          .allSatisfy(fibre -> assertThat(fibre.amplitudeUv()).isGreaterThan(19));
      assertThat(unit.pairs()).hasSize(ids.size() - 1);
      for (PairTruth pair : unit.pairs()) {
        assertThat(ids).containsAll(pair.contaminatedBy());
        contaminated += pair.contaminatedBy().isEmpty() ? 0 : 1;
      }
    }
    assertThat(contaminated).isPositive();
    assertThat(samples(MUSCLE.draw(3).simulate(0))).isEqualTo(samples(MUSCLE.draw(3).simulate(0)));
  }

  @Test
  @Tag("property")
  void aBackgroundOfTheSampleMuscleReplacesTheRingAndNamesNobody() {
    StudyScenario still =
        StudyScenario.defaults()
            .withSites(1)
            .withDurationS(2)
            .withNoiseUv(0)
            .withShapes(ShapeFamily.SOLVED_SINGLE_FIBRE);
    SimulationScenario site =
        still
            .withSampleMuscle(SampleMuscleUse.BACKGROUND, SampleMuscleSettings.healthy())
            .draw(4)
            .sites()
            .get(0);
    assertThat(site.background().units()).isZero();
    assertThat(site.distant()).hasSize(SampleMuscleSettings.healthy().activeUnits());
    assertThat(site.units()).isEqualTo(still.draw(4).sites().get(0).units());
    SimulatedRecording alone = new RecordingSimulator().simulate(site.withUnits(List.of()), 1);
    assertThat(alone.truth().motorUnits()).isEmpty();
    assertThat(rmsUv(samples(alone))).isBetween(2.0, 40.0);
  }

  @Test
  @Tag("property")
  void aNeedleThatSlipsChangesAmplitudesAndNoArrival() {
    SimulationScenario still = oneFibre(0.1);
    SimulatedRecording before = new RecordingSimulator().simulate(still, 5);
    SimulatedRecording after =
        new RecordingSimulator().simulate(still.withMovement(new MovementSettings(100, 1)), 5);
    assertThat(after.truth()).isEqualTo(before.truth());
    double[] one = samples(before);
    double[] other = samples(after);
    int second = 50_000;
    double first = rmsUv(java.util.Arrays.copyOfRange(other, 0, 45_000));
    assertThat(first).isEqualTo(rmsUv(java.util.Arrays.copyOfRange(one, 0, 45_000)));
    double last = rmsUv(java.util.Arrays.copyOfRange(other, 2 * second + 5000, 3 * second));
    assertThat(last)
        .isLessThan(0.7 * rmsUv(java.util.Arrays.copyOfRange(one, 2 * second + 5000, 3 * second)));
  }

  @Test
  @Tag("property")
  void doubletsComeInTheirShareAndAtTheirInterval() {
    FiringSettings firing = FiringSettings.defaults().withDoublets(0.2, 8);
    UnitActivity activity =
        new MotorUnit(MotorUnitScenario.of("U", firing, oneFibre(0.1).units().get(0).fibres()))
            .fire(0, 300, RandomStream.of(2));
    int close = 0;
    double sumMs = 0;
    for (int i = 1; i < activity.discharges(); i++) {
      double intervalMs = 1e3 * (activity.dischargeTimeS(i) - activity.dischargeTimeS(i - 1));
      if (intervalMs < 20) {
        close++;
        sumMs += intervalMs;
      }
    }
    assertThat(close / (double) (activity.discharges() - close)).isCloseTo(0.2, within(0.03));
    assertThat(sumMs / close).isCloseTo(8, within(0.2));
  }

  @Test
  @Tag("property")
  void pausesAndRecoveryReachTheUnitsAndNothingElseIsDrawnAnew() {
    StudyScenario usual = StudyScenario.defaults().withSites(1);
    SimulationScenario plain = usual.draw(6).sites().get(0);
    SimulationScenario changed =
        usual.withActivity(new ActivitySettings(0, 8, 1, 0.1, 2)).draw(6).sites().get(0);
    MotorUnitScenario unit = changed.units().get(0);
    assertThat(unit.firing().pauses()).hasSize(1);
    assertThat(unit.firing().driftRatio()).isCloseTo(0.15, within(1e-12));
    assertThat(unit.fibres().get(0).endPlate().recoveryPerMsUs()).isNotZero();
    assertThat(unit.fibres().get(0).geometry())
        .isEqualTo(plain.units().get(0).fibres().get(0).geometry());
  }

  private static List<EndPlateTruth> endPlates(StimulusSettings stimulus) {
    StimulationTruth truth =
        StudyScenario.defaults()
            .withSites(1)
            .withActivation(SimulatedActivation.STIMULATED)
            .withStimulus(stimulus)
            .draw(3)
            .simulate(0)
            .truth()
            .stimulation();
    return truth == null ? List.of() : truth.endPlates();
  }

  @Test
  @Tag("property")
  void stimulationNearThresholdFailsAndDirectStimulationHardlyJitters() {
    EndPlateTruth steady = endPlates(StimulusSettings.defaults()).get(0);
    EndPlateTruth weak = endPlates(new StimulusSettings(1, 0, 5)).get(0);
    EndPlateTruth direct = endPlates(new StimulusSettings(0, 1, 5)).get(0);
    assertThat(weak.blockingPercent()).isGreaterThan(steady.blockingPercent() + 5);
    assertThat(direct.blockingPercent()).isZero();
    assertThat(direct.expectedJitterUs()).isLessThan(5);
    assertThat(direct.meanConsecutiveDifferenceUs()).isLessThan(5);
    assertThat(endPlates(new StimulusSettings(0, 0, 60)).get(0).expectedJitterUs())
        .isGreaterThan(60);
  }

  @Test
  @Tag("contract")
  void whatCannotBeIsRefusedByName() {
    assertThatIllegalArgumentException()
        .isThrownBy(
            () ->
                StudyScenario.defaults()
                    .withSampleMuscle(SampleMuscleUse.WHOLE, SampleMuscleSettings.healthy()))
        .withMessageContaining("SOLVED_SINGLE_FIBRE")
        .withMessageContaining("found CUBIC_POINT");
    assertThatIllegalArgumentException()
        .isThrownBy(() -> new MovementSettings(0.5e3, 1))
        .withMessageContaining("-200 to 200 um, found 500");
    assertThatIllegalArgumentException()
        .isThrownBy(() -> new ActivitySettings(5, 8, 0, 0, 0))
        .withMessageContaining("activity.doubletProbability must be 0.0 to 1.0, found 5");
    assertThatIllegalArgumentException()
        .isThrownBy(() -> new StimulusSettings(0, 2, 5))
        .withMessageContaining("stimulus.directShareRatio");
  }
}
