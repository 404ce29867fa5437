package org.lonefibre.model.simulation;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.lonefibre.model.simulation.RecordingTruth.EndPlateTruth;
import org.lonefibre.model.simulation.RecordingTruth.FibreTruth;
import org.lonefibre.model.simulation.RecordingTruth.MotorUnitTruth;
import org.lonefibre.model.simulation.RecordingTruth.PairTruth;
import org.lonefibre.signal.recording.Channel;

final class StudyPlanTest {

  private static String hash(SimulatedRecording recording) throws Exception {
    MessageDigest digest = MessageDigest.getInstance("SHA-256");
    for (Channel channel : recording.channels()) {
      double[] samples = new double[(int) channel.sampleCount()];
      recording.read(channel, 0, samples, 0, samples.length);
      ByteBuffer bytes = ByteBuffer.allocate(8 * samples.length);
      for (double sample : samples) {
        bytes.putDouble(sample);
      }
      digest.update(bytes.array());
    }
    for (MotorUnitTruth unit : recording.truth().motorUnits()) {
      for (FibreTruth fibre : unit.fibres()) {
        digest.update(fibre.arrivalTimesS().toString().getBytes(StandardCharsets.UTF_8));
      }
    }
    return HexFormat.of().formatHex(digest.digest()).substring(0, 16);
  }

  @Test
  @Tag("regression")
  void theSameSeedGivesTheSameBitsForEver() throws Exception {
    List<String> hashes =
        List.of(
            hash(DemoStudy.plan().simulate(4)),
            hash(StudyScenario.defaults().draw(1).simulate(2)),
            hash(StudyScenario.heldOut().draw(1).simulate(2)),
            hash(
                StudyScenario.defaults()
                    .withActivation(SimulatedActivation.STIMULATED)
                    .draw(1)
                    .simulate(2)));
    assertThat(hashes)
        .containsExactly(
            "eb1d451b73870ffd", "4597e64efe00060a", "ad01cc4ff6c83a6f", "c7a78d5e1855a59a");
  }

  @Test
  @Tag("property")
  void aSiteDoesNotDependOnHowManyThereAre() throws Exception {
    String few = hash(StudyScenario.defaults().withSites(2).draw(9).simulate(1));
    String many = hash(StudyScenario.defaults().withSites(4).draw(9).simulate(1));
    assertThat(many).isEqualTo(few);
    String other = hash(StudyScenario.defaults().withSites(2).draw(10).simulate(1));
    assertThat(other).isNotEqualTo(few);
  }

  @Test
  @Tag("property")
  void noiseSamplingRateAndBackgroundChangeNoArrival() {
    StudyScenario usual = StudyScenario.defaults().withSites(1);
    List<StudyScenario> others =
        List.of(usual.withNoiseUv(25), usual.withBackground(BackgroundSettings.none()));
    RecordingTruth truth = usual.draw(3).simulate(0).truth();
    for (StudyScenario other : others) {
      assertThat(other.draw(3).simulate(0).truth().motorUnits()).isEqualTo(truth.motorUnits());
    }
    RecordingTruth slower = usual.withSamplingRateHz(20_000).draw(3).simulate(0).truth();
    assertThat(slower.motorUnits().get(0).fibres().get(0).arrivalTimesS())
        .isEqualTo(truth.motorUnits().get(0).fibres().get(0).arrivalTimesS());
  }

  @Test
  @Tag("endToEnd")
  void theDemoStudyHoldsWhatItPromises() throws Exception {
    StudyPlan plan = DemoStudy.plan();
    List<RecordingTruth> truths = new ArrayList<>();
    for (int i = 0; i < plan.sites().size(); i++) {
      try (SimulatedRecording recording = plan.simulate(i)) {
        truths.add(recording.truth());
      }
    }
    GroundTruth truth = plan.truth(truths);
    assertThat(truth.schema()).isEqualTo("lonefibre-truth-1");
    assertThat(truth.needle()).isEqualTo("single-fibre, solved in muscle");
    assertThat(truth.recordings()).hasSize(20);
    assertThat(truth.recordings())
        .allSatisfy(r -> assertThat(first(r).dischargeTimesS().size()).isBetween(60, 110));
    assertThat(pairs(truth)).filteredOn(p -> !p.contaminatedBy().isEmpty()).hasSizeBetween(2, 4);
    assertThat(pairs(truth)).filteredOn(p -> p.blockingPercent() > 0).hasSize(3);
    assertThat(pairs(truth)).filteredOn(p -> p.expectedJitterUs() < 5).hasSize(1);
    assertThat(pairs(truth)).filteredOn(p -> p.expectedJitterUs() > 55).hasSizeBetween(4, 6);
  }

  @Test
  @Tag("endToEnd")
  void aStimulatedStudyHasStimuliAndEndPlatesAndNoPairs() {
    StudyPlan plan =
        StudyScenario.defaults()
            .withSites(3)
            .withActivation(SimulatedActivation.STIMULATED)
            .draw(5);
    for (int i = 0; i < 3; i++) {
      SimulatedRecording recording = plan.simulate(i);
      RecordingTruth truth = recording.truth();
      assertThat(recording.channels()).hasSize(2);
      assertThat(truth.stimulation()).isNotNull();
      assertThat(truth.stimulation().stimulusTimesS().size()).isBetween(60, 100);
      for (EndPlateTruth endPlate : truth.stimulation().endPlates()) {
        Double realised = endPlate.meanConsecutiveDifferenceUs();
        assertThat(realised).isNotNull();
        assertThat(realised / endPlate.expectedJitterUs()).isCloseTo(1, within(0.5));
      }
      assertThat(truth.motorUnits()).allSatisfy(u -> assertThat(u.pairs()).isEmpty());
    }
  }

  @Test
  @Tag("property")
  void subliminalStimulationMissesAndDelaysOnlyInItsStretch() {
    StudyPlan plan =
        StudyScenario.defaults()
            .withSites(1)
            .withActivation(SimulatedActivation.STIMULATED)
            .withShares(0, 0, 0, 0)
            .draw(5);
    StimulationScenario usual = plan.sites().get(0).stimulation();
    assertThat(usual).isNotNull();
    SimulationScenario weak =
        plan.sites()
            .get(0)
            .withStimulation(
                usual.withSubliminal(StimulationScenario.Subliminal.middleThird("U1")));
    FibreTruth fibre = first(new RecordingSimulator().simulate(weak, 4).truth()).fibres().get(0);
    int count = fibre.arrivalTimesS().size();
    for (int i = 0; i < count; i++) {
      if (i < count / 3 || i > 2 * count / 3) {
        assertThat(fibre.arrivalTimesS().get(i)).isNotNull();
      }
    }
    assertThat(fibre.arrivalTimesS()).contains((Double) null);
  }

  @Test
  @Tag("analytic")
  void explicitPotentialsLieWhereTheyWerePut() {
    double[] bump = new double[801];
    for (int i = 0; i < bump.length; i++) {
      double t = (i - 400) / 100.0;
      bump[i] = 512 * Math.exp(-0.5 * t * t);
    }
    SimulatedRecording recording =
        new ExplicitRecording(
                50_000, 1, AmplifierSettings.defaults().withNoiseUv(0).withBandHz(0, 20_000))
            .place(bump, 1, 400, new double[] {0.2000, 0.50001})
            .finish(1);
    double[] samples = new double[50_000];
    recording.read(recording.channels().get(0), 0, samples, 0, samples.length);
    assertThat(samples[10_000]).isCloseTo(512, within(1.0));
    // 10 us before and after the sample grid's two neighbours: equal values.
    assertThat(samples[25_000]).isCloseTo(samples[25_001], within(0.5));
  }

  private static MotorUnitTruth first(RecordingTruth truth) {
    return truth.motorUnits().get(0);
  }

  private static List<PairTruth> pairs(GroundTruth truth) {
    return truth.recordings().stream()
        .flatMap(r -> r.motorUnits().stream())
        .flatMap(u -> u.pairs().stream())
        .toList();
  }

  @Test
  @Tag("property")
  void aSolvedNeedleRecordsWhereAskedAndSaysSo() {
    StudyScenario usual = StudyScenario.defaults().withSites(1).withDurationS(2);
    StudyPlan solved = usual.withShapes(ShapeFamily.SOLVED_CONCENTRIC_SMALL).draw(5);
    assertThat(solved.needle()).isEqualTo("concentric-small, solved in muscle");
    assertThat(usual.draw(5).needle()).isEqualTo(StudyPlan.POINT_NEEDLE);
    SimulatedRecording recording = solved.simulate(0);
    // Units are drawn by amplitude: the nearer fibre of the weaker needle has the same size.
    assertThat(recording.truth().motorUnits()).isNotEmpty();
    assertThat(recording.truth().motorUnits().get(0).fibres().get(0).distanceMm())
        .isLessThan(
            usual.draw(5).simulate(0).truth().motorUnits().get(0).fibres().get(0).distanceMm());
  }
}
