package org.lonefibre.analysis.grading;

import java.util.Arrays;

/** Numbers split in two where the spread within the parts is least. */
final class Split {

  /** Which numbers lie in the upper part. */
  final boolean[] upper;

  private final double distance;
  private final double spread;

  private Split(boolean[] upper, double distance, double spread) {
    this.upper = upper;
    this.distance = distance;
    this.spread = spread;
  }

  /** Two numbers or more. */
  static Split of(double[] values) {
    double[] sorted = values.clone();
    Arrays.sort(sorted);
    int n = sorted.length;
    double total = Arrays.stream(sorted).sum();
    double sum = 0;
    double best = -1;
    int split = 1;
    for (int k = 1; k < n; k++) {
      sum += sorted[k - 1];
      double apart = sum / k - (total - sum) / (n - k);
      double between = apart * apart * k * (n - k);
      if (between > best) {
        best = between;
        split = k;
      }
    }
    double border = (sorted[split - 1] + sorted[split]) / 2;
    boolean[] upper = new boolean[n];
    for (int i = 0; i < n; i++) {
      upper[i] = values[i] > border;
    }
    double low = mean(sorted, 0, split);
    double high = mean(sorted, split, n);
    double spread = Math.max(deviation(sorted, 0, split, low), deviation(sorted, split, n, high));
    return new Split(upper, high - low, spread);
  }

  /** Distance of the parts' means over the spread of the wider part, or over a least spread. */
  double apart(double leastSpread) {
    return distance / Math.max(spread, leastSpread);
  }

  private static double mean(double[] values, int from, int to) {
    double sum = 0;
    for (int i = from; i < to; i++) {
      sum += values[i];
    }
    return sum / (to - from);
  }

  private static double deviation(double[] values, int from, int to, double mean) {
    double sum = 0;
    for (int i = from; i < to; i++) {
      sum += (values[i] - mean) * (values[i] - mean);
    }
    return Math.sqrt(sum / (to - from));
  }
}
