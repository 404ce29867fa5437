package org.lonefibre.analysis.jitter;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Random;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.lonefibre.analysis.interval.IntervalSeries;
import org.lonefibre.analysis.interval.SweepInterval;
import org.lonefibre.analysis.interval.SweepState;
import org.lonefibre.signal.recording.Evidence.Quantity;
import org.lonefibre.signal.recording.Finding;

/** What holds for any series; the number in a failure's description is the seed that replays it. */
class JitterPropertyTest {

  private static final int SERIES = 3_000;
  private static final JitterEstimator ESTIMATOR = new JitterEstimator(JitterSettings.defaults());

  @Tag("property")
  @Test
  void everyAnswerIsFiniteOrderedAndCountsEverySweepOnce() {
    for (int seed = 0; seed < SERIES; seed++) {
      IntervalSeries series = any(seed);
      JitterResult result = ESTIMATOR.measure(series);
      JitterCounts counts = result.counts();
      assertThat(
              counts.presentSweeps()
                  + counts.blockedSweeps()
                  + counts.triggerAbsentSweeps()
                  + counts.obscuredSweeps()
                  + counts.excludedSweeps())
          .as("seed %d", seed)
          .isEqualTo(series.sweeps().size());
      assertThat(counts.differences()).as("seed %d", seed).isEqualTo(differences(series));
      for (Finding finding : result.findings()) {
        assertThat(finding.text()).as("seed %d", seed).doesNotContain("NaN", "Infinity");
        assertThat(finding.evidence().quantities())
            .as("seed %d", seed)
            .extracting(Quantity::value)
            .allMatch(Double::isFinite);
      }
      if (result instanceof JitterMeasurement m) {
        assertThat(
                new double[] {
                  m.meanIntervalUs(),
                  m.medianIntervalUs(),
                  m.meanConsecutiveDifferenceUs(),
                  m.timingFloorUs(),
                  m.correctedJitterHighUs()
                })
            .as("seed %d", seed)
            .matches(values -> java.util.Arrays.stream(values).allMatch(Double::isFinite));
        assertThat(m.correctedJitterUs())
            .as("seed %d", seed)
            .isBetween(m.correctedJitterLowUs(), m.correctedJitterHighUs())
            .isBetween(0.0, m.jitterUs());
        Double quoted =
            m.statistic() == JitterStatistic.MEAN_CONSECUTIVE_DIFFERENCE
                ? Double.valueOf(m.meanConsecutiveDifferenceUs())
                : m.meanSortedDifferenceUs();
        assertThat(quoted).as("seed %d", seed).isNotNull().isEqualTo(m.jitterUs());
      } else {
        assertThat(counts.differences()).as("seed %d", seed).isLessThan(20);
      }
    }
  }

  @Tag("property")
  @Test
  void gainOfTheClockScalesTheConsecutiveDifference() {
    for (int seed = 0; seed < SERIES; seed++) {
      IntervalSeries series = any(seed);
      if (ESTIMATOR.measure(series) instanceof JitterMeasurement once
          && ESTIMATOR.measure(scaled(series, 3)) instanceof JitterMeasurement thrice) {
        double expected = 3 * once.meanConsecutiveDifferenceUs();
        assertThat(thrice.meanConsecutiveDifferenceUs())
            .as("seed %d", seed)
            .isCloseTo(expected, within(1e-9 * (1 + expected)));
      }
    }
  }

  @Tag("property")
  @Test
  void ownJittersAreNeverNegativeNorWithoutAReason() {
    for (int seed = 0; seed < SERIES / 4; seed++) {
      List<FollowedPotential> followers = new ArrayList<>();
      int count = 2 + seed % 3;
      for (int k = 0; k < count; k++) {
        followers.add(
            new FollowedPotential("f" + k, any(31 * seed + k), seed % 2 == 0 ? 2.0 : null));
      }
      UnitIntervals unit = new UnitIntervals("t", 2.0, followers);
      List<OwnJitter> own = new EndPlateJitters(JitterSettings.defaults()).separate(unit);
      assertThat(own).hasSize(count + 1);
      for (OwnJitter one : own) {
        Double jitter = one.jitterUs();
        assertThat(jitter == null).as("seed %d", seed).isEqualTo(one.reason() != null);
        if (jitter != null) {
          assertThat(jitter)
              .as("seed %d", seed)
              .isPositive()
              .isFinite()
              .isBetween(
                  Objects.requireNonNull(one.jitterLowUs()),
                  Objects.requireNonNull(one.jitterHighUs()));
        }
      }
      for (Finding finding :
          new UnitPatterns(JitterSettings.defaults(), PatternSettings.defaults()).judge(unit)) {
        assertThat(finding.text()).as("seed %d", seed).doesNotContain("NaN");
      }
    }
  }

  @Tag("contract")
  @Test
  void numbersThatAreNoneAreRefusedByTheirSweep() {
    assertThatThrownBy(() -> ESTIMATOR.measure(one(Double.NaN, 1.0, 100.0)))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessage("sweep 7: intervalUs must be finite, found NaN us");
    assertThatThrownBy(() -> ESTIMATOR.measure(one(800, Double.POSITIVE_INFINITY, 100.0)))
        .hasMessage("sweep 7: errorUs must be finite and 0 or more, found Infinity us");
    assertThatThrownBy(() -> ESTIMATOR.measure(one(800, 1.0, -5.0)))
        .hasMessage("sweep 7: precedingIntervalMs must be finite and 0 or more, found -5.0 ms");
  }

  @Tag("contract")
  @Test
  void sweepNumbersThatDoNotRiseAreRefused() {
    SweepInterval sweep = one(800, 1.0, 100.0).sweeps().get(0);
    IntervalSeries twice =
        new IntervalSeries(IntervalSeries.Kind.INTER_POTENTIAL_INTERVAL, List.of(sweep, sweep), 0);
    assertThatThrownBy(() -> ESTIMATOR.measure(twice))
        .hasMessage("sweep numbers must rise, found 7 after 7");
  }

  private static IntervalSeries one(double intervalUs, double errorUs, double precedingMs) {
    return new IntervalSeries(
        IntervalSeries.Kind.INTER_POTENTIAL_INTERVAL,
        List.of(
            new SweepInterval(7, 0.7, intervalUs, errorUs, SweepState.PRESENT, precedingMs, false)),
        0);
  }

  /** Differences counted in the plainest way. */
  private static int differences(IntervalSeries series) {
    int count = 0;
    for (int i = 1; i < series.sweeps().size(); i++) {
      SweepInterval first = series.sweeps().get(i - 1);
      SweepInterval second = series.sweeps().get(i);
      if (first.state() == SweepState.PRESENT
          && second.state() == SweepState.PRESENT
          && second.continuous()
          && second.sweep() - first.sweep() == 1) {
        count++;
      }
    }
    return count;
  }

  private static IntervalSeries scaled(IntervalSeries series, double factor) {
    return new IntervalSeries(
        series.kind(),
        series.sweeps().stream()
            .map(
                s ->
                    new SweepInterval(
                        s.sweep(),
                        s.timeS(),
                        s.intervalUs() == null ? null : factor * s.intervalUs(),
                        s.errorUs(),
                        s.state(),
                        s.precedingIntervalMs(),
                        s.continuous()))
            .toList(),
        series.stimulusErrorUs());
  }

  /** Any length, law, ties, drift, blocks, gaps, missing numbers and errors. */
  private static IntervalSeries any(int seed) {
    Random random = new Random(seed);
    int length = random.nextInt(160);
    double spread = random.nextInt(6) == 0 ? 0 : Math.exp(6 * random.nextDouble() - 1);
    double drift = random.nextInt(4) == 0 ? 5 * random.nextGaussian() : 0;
    double jump = random.nextInt(4) == 0 ? 20 * spread : 0;
    double lost = random.nextInt(2) == 0 ? 0.6 * random.nextDouble() : 0;
    double grid = random.nextInt(3) == 0 ? 20 : 0;
    double centre = 10_000 * (random.nextDouble() - 0.5);
    List<SweepInterval> sweeps = new ArrayList<>();
    int number = 0;
    for (int i = 0; i < length; i++) {
      number += random.nextInt(40) == 0 ? 2 : 1;
      SweepState state =
          random.nextDouble() < lost
              ? SweepState.values()[1 + random.nextInt(4)]
              : SweepState.PRESENT;
      boolean present = state == SweepState.PRESENT;
      double value =
          centre + drift * i + spread * random.nextGaussian() + (random.nextBoolean() ? jump : 0);
      boolean follows = i > 0 && random.nextInt(60) > 0;
      sweeps.add(
          new SweepInterval(
              number,
              0.1 * number,
              present ? (Double) (grid > 0 ? grid * Math.rint(value / grid) : value) : null,
              present && random.nextInt(9) > 0 ? (Double) (10 * random.nextDouble()) : null,
              state,
              follows && random.nextInt(20) > 0
                  ? (Double) Math.max(0, 100 + 10.0 * random.nextInt(5))
                  : null,
              follows));
    }
    return new IntervalSeries(
        seed % 3 == 0
            ? IntervalSeries.Kind.STIMULUS_LATENCY
            : IntervalSeries.Kind.INTER_POTENTIAL_INTERVAL,
        sweeps,
        seed % 5 == 0 ? 6 : 0);
  }
}
