package org.lonefibre.analysis.jitter;

import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import org.lonefibre.analysis.interval.IntervalSeries;
import org.lonefibre.analysis.interval.SweepInterval;

/** The intervals of the present sweeps, in order of time and in order of size. */
final class PresentIntervals {

  private final List<SweepInterval> sweeps;
  private final double[] valuesUs;
  private final double[] sortedUs;

  PresentIntervals(IntervalSeries series) {
    sweeps = series.sweeps().stream().filter(s -> s.intervalUs() != null).toList();
    valuesUs = sweeps.stream().mapToDouble(s -> Objects.requireNonNull(s.intervalUs())).toArray();
    sortedUs = valuesUs.clone();
    Arrays.sort(sortedUs);
  }

  int size() {
    return valuesUs.length;
  }

  SweepInterval sweep(int i) {
    return sweeps.get(i);
  }

  /** The interval of one sweep, in order of time. */
  double valueUs(int i) {
    return valuesUs[i];
  }

  /** One interval, in order of size. */
  double sortedUs(int i) {
    return sortedUs[i];
  }

  double meanUs() {
    return Arrays.stream(valuesUs).sum() / valuesUs.length;
  }

  double medianUs() {
    return medianUs(0, sortedUs.length);
  }

  /** Median of the intervals from one rank up to, not including, another. */
  double medianUs(int fromRank, int toRank) {
    int n = toRank - fromRank;
    double upper = sortedUs[fromRank + n / 2];
    return n % 2 == 1 ? upper : (upper + sortedUs[fromRank + n / 2 - 1]) / 2;
  }

  /**
   * Mean absolute difference over all pairs of intervals (Gini): the MCD to be expected if the
   * order of the sweeps did not matter.
   */
  double meanDifferenceOfAllUs() {
    int n = sortedUs.length;
    double sum = 0;
    for (int i = 0; i < n; i++) {
      sum += (2.0 * i - n + 1) * sortedUs[i];
    }
    return 2 * sum / (n * (n - 1.0));
  }

  /** Number of intervals within half a width of a centre. */
  int countAround(double centreUs, double widthUs) {
    int count = 0;
    for (double value : sortedUs) {
      if (Math.abs(value - centreUs) <= widthUs / 2) {
        count++;
      }
    }
    return count;
  }
}
