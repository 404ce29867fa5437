package org.lonefibre.signal.robust;

import java.util.Arrays;

/**
 * Location and spread that a few wild values do not move, in the unit of the values.
 *
 * <ul>
 *   <li>Values must be finite, and there must be at least one: else IllegalArgumentException (a
 *       value that is not a number is the caller's mistake).
 *   <li>Methods leave their argument as it was unless their name says {@code InPlace}.
 *   <li>Thread rule: no state, free to share.
 * </ul>
 */
public final class RobustStatistics {

  /**
   * 1 / (standard normal quantile of 0.75): makes the median absolute deviation of a Gaussian its
   * standard deviation (Hampel 1974; the figure is 1.482602218505602).
   */
  private static final double GAUSSIAN_MAD = 1.482602218505602;

  private RobustStatistics() {}

  /** Median; the mean of the middle two of an even number. */
  public static double median(double[] values) {
    return medianInPlace(values.clone(), values.length);
  }

  /** Median of the first values of an array, which is rearranged. */
  public static double medianInPlace(double[] values, int length) {
    check(values, length);
    int half = length / 2;
    double upper = Selection.select(values, length, half);
    if (length % 2 == 1) {
      return upper;
    }
    double lower = values[0];
    for (int i = 1; i < half; i++) {
      lower = Math.max(lower, values[i]);
    }
    return lower + (upper - lower) / 2;
  }

  /**
   * Quantile by linear interpolation between ranks, rank = p (n - 1) (Hyndman and Fan 1996, type 7;
   * NumPy's default).
   *
   * @param probability 0 to 1
   */
  public static double quantile(double[] values, double probability) {
    return quantileInPlace(values.clone(), values.length, probability);
  }

  /** Quantile, as {@link #quantile}, of the first values of an array, which is rearranged. */
  public static double quantileInPlace(double[] values, int length, double probability) {
    check(values, length);
    if (!(probability >= 0 && probability <= 1)) {
      throw new IllegalArgumentException("probability must be 0 to 1, found " + probability);
    }
    double rank = probability * (length - 1);
    int below = (int) Math.floor(rank);
    double lower = Selection.select(values, length, below);
    if (below == length - 1) {
      return lower;
    }
    double upper = values[below + 1];
    for (int i = below + 2; i < length; i++) {
      upper = Math.min(upper, values[i]);
    }
    return lower + (rank - below) * (upper - lower);
  }

  /**
   * The value of a given rank among the first values of an array, which is rearranged.
   *
   * @param rank 0 for the smallest, {@code length - 1} for the largest
   */
  public static double rankInPlace(double[] values, int length, int rank) {
    check(values, length);
    if (rank < 0 || rank >= length) {
      throw new IllegalArgumentException("rank must be 0 to " + (length - 1) + ", found " + rank);
    }
    return Selection.select(values, length, rank);
  }

  /** Median of the distances from the median, not scaled. */
  public static double medianAbsoluteDeviation(double[] values) {
    double[] work = values.clone();
    return deviationInPlace(work, medianInPlace(work, work.length));
  }

  private static double deviationInPlace(double[] values, double centre) {
    for (int i = 0; i < values.length; i++) {
      values[i] = Math.abs(values[i] - centre);
    }
    return medianInPlace(values, values.length);
  }

  /**
   * Standard deviation of a Gaussian around a known median with these distances from it.
   *
   * @param values as many as count, rearranged and made distances
   */
  public static double standardDeviationAroundInPlace(double[] values, double median) {
    return GAUSSIAN_MAD * deviationInPlace(values, median);
  }

  /** Standard deviation of a Gaussian with this median absolute deviation. */
  public static double standardDeviation(double[] values) {
    return GAUSSIAN_MAD * medianAbsoluteDeviation(values);
  }

  /**
   * Standard deviation of a Gaussian around 0 with this median of magnitudes.
   *
   * @param values values around 0, rearranged and made positive
   * @param length how many of them count, from 0 on
   */
  public static double standardDeviationAroundZeroInPlace(double[] values, int length) {
    check(values, length);
    for (int i = 0; i < length; i++) {
      values[i] = Math.abs(values[i]);
    }
    return GAUSSIAN_MAD * medianInPlace(values, length);
  }

  /**
   * Mean of what is left when a part is cut off at each end; the number cut is rounded down (as
   * SciPy's {@code trim_mean}).
   *
   * @param cutRatio part cut at each end, 0 to below 0.5
   */
  public static double trimmedMean(double[] values, double cutRatio) {
    double[] sorted = trimmed(values, cutRatio);
    double sum = 0;
    for (double value : sorted) {
      sum += value;
    }
    return sum / sorted.length;
  }

  /** What is left, in order, when a part is cut off at each end; see {@link #trimmedMean}. */
  public static double[] trimmed(double[] values, double cutRatio) {
    check(values, values.length);
    if (!(cutRatio >= 0 && cutRatio < 0.5)) {
      throw new IllegalArgumentException(
          "part cut at each end must be 0 to below 0.5, found " + cutRatio);
    }
    double[] sorted = values.clone();
    Arrays.sort(sorted);
    int cut = (int) (cutRatio * sorted.length);
    return Arrays.copyOfRange(sorted, cut, sorted.length - cut);
  }

  private static void check(double[] values, int length) {
    if (length < 1 || length > values.length) {
      throw new IllegalArgumentException(
          "at least one value is needed, found " + length + " of " + values.length);
    }
    double sum = 0;
    double other = 0;
    for (int i = 0; i + 1 < length; i += 2) {
      sum += values[i] * 0;
      other += values[i + 1] * 0;
    }
    if (sum + other + values[length - 1] * 0 != 0) {
      throw new IllegalArgumentException("values must be finite");
    }
  }
}
