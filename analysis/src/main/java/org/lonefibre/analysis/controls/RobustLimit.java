package org.lonefibre.analysis.controls;

import org.hipparchus.distribution.continuous.TDistribution;

/**
 * Robust upper limit for samples too small for percentiles.
 *
 * <ol>
 *   <li>Location by the biweight with 3.7 times the median absolute deviation, iterated.
 *   <li>Spread of the population by the biweight with 205.6, spread of the location by the biweight
 *       with 3.7.
 *   <li>Limit: location + Student's t (n - 1) at the percentile times the root of the sum of
 *       squares.
 * </ol>
 *
 * <ul>
 *   <li>No spread: the median.
 * </ul>
 *
 * <p>Source: Horn, Pesce and Copeland 1998, Clin Chem 44:622; CLSI EP28-A3c (both from memory).
 */
final class RobustLimit {

  private static final double NARROW = 3.7;
  private static final double WIDE = 205.6;
  private static final double NORMAL_MAD = 0.6745;
  private static final double CLOSE = 1e-10;
  private static final int MOST_ROUNDS = 500;

  private RobustLimit() {}

  static double upper(double[] values, double p) {
    double median = UpperLimit.median(values);
    double[] deviations = new double[values.length];
    for (int i = 0; i < values.length; i++) {
      deviations[i] = Math.abs(values[i] - median);
    }
    double mad = UpperLimit.median(deviations) / NORMAL_MAD;
    if (mad == 0) {
      return median;
    }
    double location = location(values, median, mad);
    double population = biweight(values, median, WIDE * mad, true);
    double near = biweight(values, median, NARROW * mad, true);
    double ofLocation = biweight(values, location, NARROW * near, false);
    double t = new TDistribution(values.length - 1).inverseCumulativeProbability(p);
    return location + t * Math.hypot(population, ofLocation);
  }

  private static double location(double[] values, double start, double mad) {
    double location = start;
    for (int round = 0; round < MOST_ROUNDS; round++) {
      double weights = 0;
      double sum = 0;
      for (double value : values) {
        double u = (value - location) / (NARROW * mad);
        if (Math.abs(u) < 1) {
          double weight = (1 - u * u) * (1 - u * u);
          weights += weight;
          sum += weight * value;
        }
      }
      double next = sum / weights;
      if (Math.abs(next - location) < CLOSE * mad) {
        return next;
      }
      location = next;
    }
    return location;
  }

  /** Biweight spread about a centre, values beyond the width left out. */
  private static double biweight(
      double[] values, double centre, double width, boolean ofPopulation) {
    double above = 0;
    double below = 0;
    int n = values.length;
    for (double value : values) {
      double u = (value - centre) / width;
      if (Math.abs(u) < 1) {
        double v = 1 - u * u;
        above += v * v * v * v * u * u;
        below += v * (1 - 5 * u * u);
      }
    }
    double scale = ofPopulation ? n : 1;
    return width * Math.sqrt(scale * above / (below * Math.max(1, below - 1)));
  }
}
