package org.lonefibre.analysis.jitter;

/**
 * The 95 % interval of a quantity that cannot lie below zero, measured with a Gaussian error of
 * one: values are taken into the range of a truth in the order of their likelihood over that of the
 * most likely truth (Feldman and Cousins 1998, Phys Rev D 57:3873), so that it holds 95 % near zero
 * too, where an interval cut off at zero would hold 97.5 %.
 */
final class NearZero {

  private static final double HELD_PROBABILITY = 0.95;
  private static final double USUAL = 1.959964;
  private static final double ONE_SIDED = 1.644854;
  private static final double FARTHEST = 100;
  private static final double STEP = 0.02;
  private static final int TRUTHS = 301;
  private static final double[] LEAST = new double[TRUTHS];
  private static final double[] GREATEST = new double[TRUTHS];

  static {
    // If the truth is zero, all values below it are as likely as can be.
    LEAST[0] = Double.NEGATIVE_INFINITY;
    GREATEST[0] = ONE_SIDED;
    for (int k = 1; k < TRUTHS; k++) {
      double truth = STEP * k;
      double low = -FARTHEST;
      double high = truth - 0.5;
      for (int halving = 0; halving < 70; halving++) {
        double least = (low + high) / 2;
        double held = normal(greatest(least, truth) - truth) - normal(least - truth);
        if (held > HELD_PROBABILITY) {
          low = least;
        } else {
          high = least;
        }
      }
      LEAST[k] = low;
      GREATEST[k] = greatest(low, truth);
    }
  }

  private NearZero() {}

  /** Least truth that a value is held by; 0 or more. */
  static double low(double value) {
    if (value > STEP * (TRUTHS - 1) - 1) {
      return value - USUAL;
    }
    int k = 0;
    while (GREATEST[k] < value) {
      k++;
    }
    return k == 0 ? 0 : STEP * (k - 1 + share(value, GREATEST[k - 1], GREATEST[k]));
  }

  /** Greatest truth that a value is held by. */
  static double high(double value) {
    if (value > STEP * (TRUTHS - 1) - 3) {
      return value + USUAL;
    }
    int k = 0;
    while (LEAST[k] < value) {
      k++;
    }
    return k == 0 ? 0 : STEP * (k - 1 + share(value, Math.max(-FARTHEST, LEAST[k - 1]), LEAST[k]));
  }

  private static double share(double value, double from, double to) {
    return to > from ? (value - from) / (to - from) : 0;
  }

  /** The other end of the range whose values are as likely, over their best truth, as this end. */
  private static double greatest(double least, double truth) {
    double order = order(least, truth);
    double low = truth;
    double high = truth + 12;
    for (int halving = 0; halving < 60; halving++) {
      double middle = (low + high) / 2;
      if (order(middle, truth) > order) {
        low = middle;
      } else {
        high = middle;
      }
    }
    return low;
  }

  private static double order(double value, double truth) {
    double away = value - truth;
    return value >= 0 ? -away * away / 2 : (value * value - away * away) / 2;
  }

  private static double normal(double value) {
    return 0.5 * org.hipparchus.special.Erf.erfc(-value / Math.sqrt(2));
  }
}
