package org.lonefibre.analysis.controls;

import java.util.Arrays;

/** Upper limits of a sample. */
final class UpperLimit {

  private static final double UPPER = 0.975;

  private UpperLimit() {}

  /** The limit by a method; the values need not be sorted. */
  static double of(ControlMethod method, double[] values) {
    return switch (method) {
      case MEAN_2_SD -> mean(values) + 2 * sd(values);
      case MEAN_2_5_SD -> mean(values) + 2.5 * sd(values);
      case NONPARAMETRIC -> percentile(values, UPPER);
      case ROBUST -> RobustLimit.upper(values, UPPER);
    };
  }

  static double mean(double[] values) {
    return Arrays.stream(values).average().orElseThrow();
  }

  /** With n - 1. */
  static double sd(double[] values) {
    double mean = mean(values);
    double sum = 0;
    for (double value : values) {
      sum += (value - mean) * (value - mean);
    }
    return Math.sqrt(sum / (values.length - 1));
  }

  /** Rank p (n + 1), interpolated, within the sample. */
  static double percentile(double[] values, double p) {
    double[] sorted = values.clone();
    Arrays.sort(sorted);
    double rank = Math.min(sorted.length, Math.max(1, p * (sorted.length + 1)));
    int below = (int) Math.floor(rank);
    double low = sorted[below - 1];
    return below == sorted.length ? low : low + (rank - below) * (sorted[below] - low);
  }

  static double median(double[] values) {
    return percentile(values, 0.5);
  }
}
