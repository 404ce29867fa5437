package org.lonefibre.analysis.controls;

import java.util.Arrays;
import java.util.function.ToDoubleFunction;
import org.lonefibre.signal.random.RandomStream;

/**
 * 90 % bootstrap interval of a limit: subjects drawn with replacement, the 5th and 95th percentile
 * (CLSI EP28 asks for 90 %). The seed is fixed: the same controls give the same interval.
 */
final class Resampling {

  private static final int DRAWS = 2000;
  private static final long SEED = 28;

  /** An interval, in the unit of the values. */
  record Range(double low, double high) {}

  private Resampling() {}

  static Range of(double[] values, ToDoubleFunction<double[]> limit) {
    RandomStream random = RandomStream.of(SEED);
    double[] limits = new double[DRAWS];
    double[] drawn = new double[values.length];
    for (int d = 0; d < DRAWS; d++) {
      for (int i = 0; i < drawn.length; i++) {
        drawn[i] = values[random.below(values.length)];
      }
      limits[d] = limit.applyAsDouble(drawn);
    }
    Arrays.sort(limits);
    return new Range(UpperLimit.percentile(limits, 0.05), UpperLimit.percentile(limits, 0.95));
  }
}
