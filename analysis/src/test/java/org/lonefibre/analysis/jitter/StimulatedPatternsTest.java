package org.lonefibre.analysis.jitter;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.lonefibre.analysis.interval.IntervalSeries;
import org.lonefibre.analysis.interval.SweepInterval;
import org.lonefibre.analysis.interval.SweepState;
import org.lonefibre.signal.recording.Finding;
import org.lonefibre.signal.recording.FindingCode;
import org.lonefibre.signal.recording.Severity;

class StimulatedPatternsTest {

  private static final StimulatedPatterns PATTERNS =
      new StimulatedPatterns(JitterSettings.defaults(), PatternSettings.defaults());

  @Tag("analytic")
  @Test
  void commonPartOfTheLatencyIsSeparatedAndTheStimulusTakenOff() {
    Random random = new Random(61);
    List<Series> series = List.of(new Series(), new Series(), new Series());
    for (int i = 0; i < 40_000; i++) {
      double common = Math.hypot(12, 5) * random.nextGaussian();
      for (int k = 0; k < 3; k++) {
        series.get(k).present(3000 + 600 * k + common + 15 * random.nextGaussian());
      }
    }
    StimulatedFindings found = PATTERNS.judge(potentials(series, 5));
    assertThat(found.commonLatencyJitterUs()).isCloseTo(1.12838 * 12, within(0.4));
    assertThat(codes(found.findings())).containsExactly(FindingCode.COMMON_LATENCY);
  }

  @Tag("contract")
  @Test
  void oneEndPlateHasNoCommonPart() {
    Series series = new Series();
    for (int i = 0; i < 60; i++) {
      series.present(3000 + i % 7);
    }
    StimulatedFindings found = PATTERNS.judge(potentials(List.of(series), 0));
    assertThat(found.commonLatencyJitterUs()).isNull();
    assertThat(found.findings()).isEmpty();
  }

  @Tag("property")
  @Test
  void endPlatesThatBlockTogetherAreStimulatedBelowThreshold() {
    Random random = new Random(67);
    Series first = new Series();
    Series second = new Series();
    for (int i = 0; i < 80; i++) {
      if (i % 9 == 4) {
        first.absent(SweepState.BLOCKED);
        second.absent(SweepState.BLOCKED);
      } else {
        first.present(3000 + 20 * random.nextGaussian());
        second.present(3600 + 20 * random.nextGaussian());
      }
    }
    StimulatedFindings found = PATTERNS.judge(potentials(List.of(first, second), 0));
    assertThat(codes(found.findings())).containsExactly(FindingCode.SUBLIMINAL_STIMULATION);
    assertThat(found.ofPotentials()).isEmpty();
  }

  @Tag("property")
  @Test
  void thresholdOfOneAxonIsFoundAndAFailingEndPlateIsNotAccused() {
    Random random = new Random(71);
    int found = 0;
    int falsely = 0;
    for (int i = 0; i < 500; i++) {
      found += PATTERNS.judge(potentials(List.of(threshold(random)), 0)).ofPotentials().size();
      falsely += PATTERNS.judge(potentials(List.of(failing(random)), 0)).ofPotentials().size();
    }
    assertThat(found).isGreaterThan(400);
    assertThat(falsely).isLessThanOrEqualTo(2);
  }

  /** Excitability swings slowly: near threshold the latency is long, below it nothing comes. */
  private static Series threshold(Random random) {
    Series series = new Series();
    double phase = 6 * random.nextDouble();
    for (int i = 0; i < 100; i++) {
      double margin = Math.sin(phase + i / 6.0) + 0.5 + 0.3 * random.nextGaussian();
      if (margin < 0) {
        series.absent(SweepState.BLOCKED);
      } else {
        series.present(3000 + 120 / (1 + 3 * margin) + 20 * random.nextGaussian());
      }
    }
    return series;
  }

  @Tag("contract")
  @Test
  void potentialsThatExcludeEachOtherAreOneFibreReachedTwoWays() {
    Random random = new Random(79);
    Series first = new Series();
    Series second = new Series();
    Series third = new Series();
    Series fourth = new Series();
    for (int i = 0; i < 60; i++) {
      boolean early = random.nextDouble() < 0.4;
      presentOrBlocked(first, early, 3000);
      presentOrBlocked(second, !early, 3900);
      presentOrBlocked(third, random.nextDouble() < 0.4, 5000);
      presentOrBlocked(fourth, random.nextDouble() < 0.6, 5900);
    }
    StimulatedFindings alternating = PATTERNS.judge(potentials(List.of(first, second), 0));
    assertThat(alternating.ofPotentials()).hasSize(2);
    assertThat(alternating.ofPotentials().values())
        .allSatisfy(
            own -> {
              assertThat(codes(own)).containsExactly(FindingCode.TWO_CLUSTERS);
              assertThat(own.get(0).severity()).isEqualTo(Severity.EXCLUSION);
            });
    assertThat(PATTERNS.judge(potentials(List.of(third, fourth), 0)).ofPotentials().values())
        .allSatisfy(own -> assertThat(codes(own)).doesNotContain(FindingCode.TWO_CLUSTERS));
  }

  private static void presentOrBlocked(Series series, boolean present, double latencyUs) {
    if (present) {
      series.present(latencyUs);
    } else {
      series.absent(SweepState.BLOCKED);
    }
  }

  private static Series failing(Random random) {
    Series series = new Series();
    for (int i = 0; i < 100; i++) {
      if (random.nextDouble() < 0.25) {
        series.absent(SweepState.BLOCKED);
      } else {
        series.present(3000 + 80 * random.nextGaussian());
      }
    }
    return series;
  }

  @Tag("contract")
  @Test
  void changesOfTheRateAreFoundAndAConstantRateIsNot() {
    assertThat(codes(PATTERNS.judge(List.of(train(0.1, 0.2))).findings()))
        .containsExactly(FindingCode.IRREGULAR_RATE);
    assertThat(PATTERNS.judge(List.of(train(0.1, 0.1))).findings()).isEmpty();
  }

  private static FollowedPotential train(double firstS, double secondS) {
    Random random = new Random(73);
    List<SweepInterval> sweeps = new ArrayList<>();
    double time = 0;
    for (int i = 1; i <= 60; i++) {
      time += i < 30 ? firstS : secondS;
      sweeps.add(
          new SweepInterval(
              i, time, 3000 + 20 * random.nextGaussian(), 1.0, SweepState.PRESENT, null, i > 1));
    }
    return new FollowedPotential(
        "p1", new IntervalSeries(IntervalSeries.Kind.STIMULUS_LATENCY, sweeps, 0), 1.0);
  }

  private static List<FollowedPotential> potentials(List<Series> series, double stimulusErrorUs) {
    List<FollowedPotential> potentials = new ArrayList<>();
    for (Series one : series) {
      potentials.add(
          new FollowedPotential(
              "p" + (potentials.size() + 1), one.latencies(stimulusErrorUs), null));
    }
    return potentials;
  }

  private static List<FindingCode> codes(List<Finding> findings) {
    return findings.stream().map(Finding::code).toList();
  }
}
