package org.lonefibre.app.serve;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.time.LocalDateTime;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.Random;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.lonefibre.analysis.SiteAnalyser;
import org.lonefibre.analysis.SiteRequest;
import org.lonefibre.analysis.settings.AnalysisSettings;
import org.lonefibre.analysis.study.Activation;
import org.lonefibre.analysis.study.Decision;
import org.lonefibre.analysis.study.MotorUnitResult;
import org.lonefibre.analysis.study.PairResult;
import org.lonefibre.analysis.study.RecordingResult;
import org.lonefibre.analysis.study.StimulationResult;
import org.lonefibre.model.simulation.DemoStudy;
import org.lonefibre.model.simulation.SimulatedActivation;
import org.lonefibre.model.simulation.SimulatedRecording;
import org.lonefibre.model.simulation.StudyPlan;
import org.lonefibre.model.simulation.StudyScenario;
import org.lonefibre.signal.recording.Annotation;
import org.lonefibre.signal.recording.Channel;
import org.lonefibre.signal.recording.Finding;
import org.lonefibre.signal.recording.FindingCode;
import org.lonefibre.signal.recording.Recording;

/** Sites of the demo study measured again from their samples as a person wants them. */
@SuppressWarnings("NullAway.Init")
class RemeasuredSiteTest {

  /** Three potentials; two units. */
  private static final int THREE_POTENTIALS = 3;

  private static final int TWO_UNITS = 11;

  private static RecordingResult three;
  private static RecordingResult two;

  @BeforeAll
  static void analyse() throws IOException {
    three = measured(THREE_POTENTIALS);
    two = measured(TWO_UNITS);
  }

  private static RecordingResult measured(int site, Decision.OfSamples... decisions)
      throws IOException {
    try (Recording recording = DemoStudy.plan().simulate(site - 1)) {
      return measured(recording, decisions);
    }
  }

  private static RecordingResult measured(Recording recording, Decision.OfSamples... decisions)
      throws IOException {
    return new SiteAnalyser(AnalysisSettings.defaultsFor(DemoStudy.NEEDLE))
        .analyse(
            recording,
            SiteRequest.whole("site.edf", "0".repeat(64), recording.channels().get(0), "site"),
            List.of(decisions));
  }

  private static List<MotorUnitResult> units(RecordingResult site) {
    return Objects.requireNonNull(site.motorUnits());
  }

  private static int discharges(RecordingResult site) {
    return units(site).stream().mapToInt(MotorUnitResult::discharges).sum();
  }

  @Test
  void anotherFilterIsInTheRecordOfConditioningAndInTheFindings() throws IOException {
    RecordingResult after = measured(THREE_POTENTIALS, new Decision.Filter(2000, "background"));
    assertThat(Objects.requireNonNull(after.conditioning()).highPassHz()).isEqualTo(2000);
    assertThat(after.findings())
        .anyMatch(
            finding ->
                finding.code() == FindingCode.EXCLUDED_BY_PERSON
                    && finding.text().contains("2000 Hz")
                    && finding.text().contains("background"));
    assertThat(units(after).get(0).potentials().get(0).amplitudeUv())
        .isLessThan(units(three).get(0).potentials().get(0).amplitudeUv());
  }

  @Test
  void aHighTriggerLevelPassesOverWhatIsSmall() throws IOException {
    RecordingResult after = measured(TWO_UNITS, new Decision.Level(20, "only the large one"));
    assertThat(discharges(after)).isLessThanOrEqualTo(discharges(two));
    assertThat(measured(TWO_UNITS, new Decision.Level(4.5, "as it was")).motorUnits())
        .isEqualTo(two.motorUnits());
  }

  @Test
  void aUnitThatIsSplitHasItsDischargesInTwoAndMergedItIsAsBefore() throws IOException {
    Decision.Split split = new Decision.Split("1", "two rhythms");
    RecordingResult parted = measured(THREE_POTENTIALS, split);
    assertThat(units(parted)).hasSize(units(three).size() + 1);
    assertThat(discharges(parted)).isEqualTo(discharges(three));
    RecordingResult joined =
        measured(THREE_POTENTIALS, split, new Decision.Merge("1", "2", "one after all"));
    assertThat(units(joined)).hasSameSizeAs(units(three));
    assertThat(discharges(joined)).isEqualTo(discharges(three));
    PairResult before = units(three).get(0).pairs().get(0);
    PairResult after = units(joined).get(0).pairs().get(0);
    assertThat(after.jitterUs()).isCloseTo(Objects.requireNonNull(before.jitterUs()), within(1.0));
  }

  @Test
  void theDischargesAPersonChoosesGoToTheSecondUnit() throws IOException {
    List<Integer> chosen = List.of(3, 6, 9, 12, 15, 18, 21, 24, 27, 30, 33, 36);
    RecordingResult parted =
        measured(THREE_POTENTIALS, new Decision.Split("1", chosen, "seen one by one"));
    assertThat(units(parted)).hasSize(units(three).size() + 1);
    assertThat(units(parted)).anyMatch(unit -> unit.discharges() == chosen.size());
    List<Double> before =
        units(three).get(0).pairs().get(0).intervals().stream()
            .filter(sweep -> chosen.contains(sweep.sweep()))
            .map(sweep -> sweep.timeS())
            .toList();
    MotorUnitResult second =
        units(parted).stream()
            .filter(unit -> unit.discharges() == chosen.size())
            .findFirst()
            .orElseThrow();
    for (int i = 0; i < before.size(); i++) {
      assertThat(second.pairs().get(0).intervals().get(i).timeS())
          .isCloseTo(before.get(i), within(0.002));
    }
    assertThatThrownBy(
            () -> measured(THREE_POTENTIALS, new Decision.Split("1", List.of(1, 2), "two")))
        .hasMessageContaining("needs 8 discharges");
    assertThatThrownBy(
            () ->
                measured(
                    THREE_POTENTIALS,
                    new Decision.Split("1", List.of(1, 2, 3, 4, 5, 6, 7, 8, 9999), "far")))
        .hasMessageContaining("not all that were named");
  }

  @Test
  void twoUnitsBecomeOneWithThePotentialsOrDischargesOfBoth() throws IOException {
    assertThat(units(two)).hasSizeGreaterThan(1);
    RecordingResult after = measured(TWO_UNITS, new Decision.Merge("1", "2", "one unit"));
    assertThat(units(after)).hasSize(units(two).size() - 1);
  }

  @Test
  void aPotentialThatWasMissedIsFoundWhereAPersonPoints() throws IOException {
    double latencyMs = 9.5;
    double jitterUs = 20;
    try (Recording recording =
        new Late(DemoStudy.plan().simulate(THREE_POTENTIALS - 1), three, latencyMs, jitterUs)) {
      RecordingResult before = measured(recording);
      MotorUnitResult unit = units(before).get(0);
      assertThat(unit.potentials()).noneMatch(p -> Math.abs(p.offsetMs() - latencyMs) < 0.5);
      RecordingResult after =
          measured(recording, new Decision.Missed("1", latencyMs + 0.2, "seen in the mean"));
      assertThat(units(after).get(0).potentials())
          .hasSize(unit.potentials().size() + 1)
          .anyMatch(p -> Math.abs(p.offsetMs() - latencyMs) < 0.3);
    }
  }

  @Test
  void aPotentialThatWasMissedAfterStimuliIsAddedWhereAPersonPoints() throws IOException {
    double latencyMs = 44;
    StudyPlan plan =
        StudyScenario.defaults()
            .withSites(1)
            .withActivation(SimulatedActivation.STIMULATED)
            .draw(41);
    try (SimulatedRecording simulated = plan.simulate(0)) {
      List<Double> stimuliS =
          Objects.requireNonNull(simulated.truth().stimulation()).stimulusTimesS();
      RecordingResult before = evoked(simulated, stimuliS);
      StimulationResult found = Objects.requireNonNull(before.stimulation());
      // Later than the chain looks by itself.
      try (Recording late =
          new Late(
              simulated, stimuliS, 8 * Objects.requireNonNull(before.noiseUv()), latencyMs, 20)) {
        assertThat(Objects.requireNonNull(evoked(late, stimuliS).stimulation()).potentials())
            .noneMatch(p -> Math.abs(p.offsetMs() - latencyMs) < 0.5);
        StimulationResult after =
            Objects.requireNonNull(
                evoked(late, stimuliS, new Decision.Missed("stimuli", latencyMs + 0.2, "seen"))
                    .stimulation());
        assertThat(after.potentials())
            .hasSize(found.potentials().size() + 1)
            .anyMatch(p -> Math.abs(p.offsetMs() - latencyMs) < 0.3);
        assertThat(after.endPlates()).hasSameSizeAs(after.potentials());
        assertThatThrownBy(
                () -> evoked(late, stimuliS, new Decision.Missed("stimuli", 48, "I think so")))
            .isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> evoked(late, stimuliS, new Decision.Split("stimuli", "two")))
            .hasMessageContaining("nothing to merge or split");
      }
    }
  }

  private static RecordingResult evoked(
      Recording recording, List<Double> stimuliS, Decision.OfSamples... decisions)
      throws IOException {
    return new SiteAnalyser(AnalysisSettings.defaultsFor(DemoStudy.NEEDLE))
        .analyse(
            recording,
            new SiteRequest(
                "site.edf",
                "0".repeat(64),
                recording.channels().get(0),
                null,
                stimuliS,
                "site",
                0,
                Double.POSITIVE_INFINITY,
                Activation.STIMULATED),
            List.of(decisions));
  }

  @Test
  void whatTheRecordingDoesNotBearOutIsRefusedInWords() {
    assertThatThrownBy(
            () -> measured(THREE_POTENTIALS, new Decision.Missed("1", -3.5, "I think so")))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("nothing stands out");
    assertThatThrownBy(() -> measured(THREE_POTENTIALS, new Decision.Split("9", "why not")))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("no motor unit 9");
    assertThatThrownBy(() -> new Decision.Level(1, "low"))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("2 to 20");
  }

  /** A recording with a small potential long after each discharge of the first unit. */
  private static final class Late implements Recording {

    private static final double WIDTH_US = 70;

    private final Recording under;
    private final double[] more;

    Late(Recording under, RecordingResult measured, double latencyMs, double jitterUs) {
      this(
          under,
          units(measured).get(0).pairs().get(0).intervals().stream()
              .map(sweep -> sweep.timeS())
              .toList(),
          7 * Objects.requireNonNull(measured.noiseUv()),
          latencyMs,
          jitterUs);
    }

    Late(Recording under, List<Double> timesS, double sizeUv, double latencyMs, double jitterUs) {
      this.under = under;
      Channel channel = under.channels().get(0);
      this.more = new double[(int) channel.sampleCount()];
      double rateHz = channel.timeBase().samplingRateHz();
      Random random = new Random(17);
      for (double timeS : timesS) {
        double atS = timeS + latencyMs / 1e3 + random.nextGaussian() * jitterUs / 1.5e6;
        int centre = (int) Math.round(atS * rateHz);
        for (int k = Math.max(0, centre - 60); k < Math.min(more.length, centre + 60); k++) {
          double x = (k / rateHz - atS) * 1e6 / WIDTH_US;
          // The derivative of a bell, 1.2 from top to bottom.
          more[k] -= sizeUv / 1.2 * x * Math.exp(-x * x / 2);
        }
      }
    }

    @Override
    public String format() {
      return under.format();
    }

    @Override
    public Optional<LocalDateTime> findStart() {
      return under.findStart();
    }

    @Override
    public List<Channel> channels() {
      return under.channels();
    }

    @Override
    public List<Annotation> annotations() {
      return under.annotations();
    }

    @Override
    public List<Finding> findings() {
      return under.findings();
    }

    @Override
    public void read(
        Channel channel, long firstSample, double[] destination, int offset, int length)
        throws IOException {
      under.read(channel, firstSample, destination, offset, length);
      for (int i = 0; i < length; i++) {
        destination[offset + i] += more[(int) firstSample + i];
      }
    }

    @Override
    public void close() throws IOException {
      under.close();
    }
  }
}
