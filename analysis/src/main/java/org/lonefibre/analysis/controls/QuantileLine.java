package org.lonefibre.analysis.controls;

/**
 * A straight line below which a share of the values lies, by least asymmetric absolute deviation
 * (Koenker and Bassett 1978). For each slope the best level is a quantile of what the slope leaves;
 * the sum of deviations is convex in the slope, which is found by golden section.
 */
record QuantileLine(double levelUs, double slopeUsPerYear) {

  private static final double GOLDEN = (Math.sqrt(5) - 1) / 2;
  private static final int ROUNDS = 120;

  static QuantileLine of(double[] ages, double[] values, double p) {
    double steepest = 0;
    for (int i = 0; i < ages.length; i++) {
      for (int j = 0; j < i; j++) {
        double apart = Math.abs(ages[i] - ages[j]);
        if (apart > 0) {
          steepest = Math.max(steepest, Math.abs(values[i] - values[j]) / apart);
        }
      }
    }
    double low = -steepest;
    double high = steepest;
    for (int round = 0; round < ROUNDS; round++) {
      double inner = high - GOLDEN * (high - low);
      double outer = low + GOLDEN * (high - low);
      if (deviation(ages, values, p, inner) <= deviation(ages, values, p, outer)) {
        high = outer;
      } else {
        low = inner;
      }
    }
    double slope = (low + high) / 2;
    return new QuantileLine(level(left(ages, values, slope), p), slope);
  }

  double atUs(double ageYears) {
    return levelUs + slopeUsPerYear * ageYears;
  }

  private static double[] left(double[] ages, double[] values, double slope) {
    double[] left = new double[values.length];
    for (int i = 0; i < values.length; i++) {
      left[i] = values[i] - slope * ages[i];
    }
    return left;
  }

  /** The smallest value that at least a share p does not exceed: the least deviation. */
  private static double level(double[] values, double p) {
    double[] sorted = values.clone();
    java.util.Arrays.sort(sorted);
    return sorted[Math.max(0, (int) Math.ceil(p * sorted.length - 1e-9) - 1)];
  }

  private static double deviation(double[] ages, double[] values, double p, double slope) {
    double[] left = left(ages, values, slope);
    double level = level(left, p);
    double sum = 0;
    for (double value : left) {
      sum += value > level ? p * (value - level) : (1 - p) * (level - value);
    }
    return sum;
  }
}
