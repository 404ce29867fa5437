package org.lonefibre.analysis.jitter;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import java.util.stream.Stream;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;
import org.lonefibre.analysis.interval.IntervalSeries;
import org.lonefibre.analysis.interval.SweepState;

/**
 * How often the 95 % interval of the corrected jitter holds the jitter of the generating law.
 *
 * <p>{@code -Dlonefibre.coverage.series=10000} runs the campaign of {@code
 * docs/measures/interval-95.md} and prints its table.
 */
@Tag("property")
class IntervalCoverageTest {

  private static final int SERIES = Integer.getInteger("lonefibre.coverage.series", 600);
  private static final double ARRIVAL_ERROR_US = 5;

  static Stream<Arguments> cells() {
    List<Arguments> cells = new ArrayList<>();
    for (Law law : Law.values()) {
      for (int differences : new int[] {30, 50, 100, 200}) {
        for (int blocking : new int[] {0, 20, 50}) {
          cells.add(Arguments.of(law, differences, blocking, 0));
        }
      }
      cells.add(Arguments.of(law, 60, 0, 60));
    }
    return cells.stream();
  }

  @ParameterizedTest(name = "{0}, {1} differences, {2} % blocked, drift {3} us")
  @MethodSource("cells")
  void intervalHoldsTheJitterOfTheLaw(Law law, int differences, int blocking, int driftUs) {
    Random random = new Random(20260101L + law.ordinal() * 1000L + differences + blocking);
    int low = 0;
    int high = 0;
    double logWidth = 0;
    for (int i = 0; i < SERIES; i++) {
      JitterMeasurement found =
          Series.measured(series(random, law, differences, blocking / 100.0, driftUs));
      if (found.correctedJitterLowUs() > law.jitterUs()) {
        high++;
      } else if (found.correctedJitterHighUs() < law.jitterUs()) {
        low++;
      }
      logWidth += found.correctedJitterHighUs() / found.correctedJitterUs();
    }
    double coverage = 1 - (low + high) / (double) SERIES;
    if (SERIES >= 5000) {
      System.out.printf(
          Locale.ROOT,
          "| %s | %d | %d | %d | %.1f | %.1f | %.1f | %.2f |%n",
          law,
          differences,
          blocking,
          driftUs,
          100 * coverage,
          100.0 * low / SERIES,
          100.0 * high / SERIES,
          logWidth / SERIES);
    }
    double slack = 3.5 * Math.sqrt(0.05 * 0.95 / SERIES);
    boolean gaussian = law == Law.GAUSSIAN;
    assertThat(coverage)
        .isBetween((gaussian ? 0.94 : 0.92) - slack, (gaussian ? 0.96 : 0.97) + slack);
  }

  private static IntervalSeries series(
      Random random, Law law, int differences, double blocking, int driftUs) {
    Series series = new Series().withErrorUs(ARRIVAL_ERROR_US);
    boolean lastPresent = false;
    int found = 0;
    while (found < differences) {
      boolean present = random.nextDouble() >= blocking;
      if (present) {
        double value =
            800
                + law.drawUs(random)
                + ARRIVAL_ERROR_US * random.nextGaussian()
                + driftUs * found / (double) differences;
        series.present(value, 100 + 8 * random.nextGaussian());
        found += lastPresent ? 1 : 0;
      } else {
        series.absent(SweepState.BLOCKED);
      }
      lastPresent = present;
    }
    return series.intervals();
  }
}
