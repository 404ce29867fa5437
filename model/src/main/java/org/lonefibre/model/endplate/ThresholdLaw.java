package org.lonefibre.model.endplate;

import org.lonefibre.signal.random.RandomStream;

/**
 * The end-plate potential rises in a straight line for 0.6 ms; the fibre fires when it crosses the
 * threshold, never if its peak stays below.
 *
 * <ul>
 *   <li>Quantal content is a Poisson count of mean 50 (human 20 to 60: Wood and Slater 2001, from
 *       memory), each quantum of mean 1 and standard deviation 0.3 (engineering choice; it gives
 *       the blocking shares of the computed table).
 *   <li>Peak over threshold is the safety factor on average; delay is 0.6 ms times threshold over
 *       peak.
 *   <li>Characteristic function and mean come from the law's density, summed over counts.
 * </ul>
 */
final class ThresholdLaw {

  static final double MEAN_QUANTA = 50;
  static final double RISE_US = 600;

  private static final double QUANTUM_DEVIATION = 0.3;
  private static final int PLACES = 240;

  private final double safetyFactor;
  private final double[] delaysUs = new double[PLACES];
  private final double[] weights = new double[PLACES];
  private final double survivingProbability;
  private final double meanUs;

  ThresholdLaw(double safetyFactor) {
    this.safetyFactor = safetyFactor;
    double lowest = MEAN_QUANTA / safetyFactor;
    double spread = Math.sqrt(MEAN_QUANTA * (1 + QUANTUM_DEVIATION * QUANTUM_DEVIATION));
    double from = Math.max(lowest, Math.max(1, MEAN_QUANTA - 6 * spread));
    double to = MEAN_QUANTA + 7 * spread;
    double[] counts = poisson();
    double kept = 0;
    for (int i = 0; i < PLACES; i++) {
      double content = from + (to - from) * (i + 0.5) / PLACES;
      delaysUs[i] = delayUs(content);
      weights[i] = density(content, counts) * (to - from) / PLACES;
      kept += weights[i];
    }
    survivingProbability = Math.min(1, kept);
    double mean = 0;
    for (int i = 0; i < PLACES; i++) {
      weights[i] /= kept;
      mean += weights[i] * delaysUs[i];
    }
    meanUs = mean;
  }

  /** Draws a quantal content. */
  static double drawContent(RandomStream stream) {
    int count = stream.poisson(MEAN_QUANTA);
    return count + QUANTUM_DEVIATION * Math.sqrt(count) * stream.gaussianRatio();
  }

  boolean reachesThreshold(double content) {
    return content * safetyFactor > MEAN_QUANTA;
  }

  double delayUs(double content) {
    return RISE_US * MEAN_QUANTA / (safetyFactor * content);
  }

  double meanUs() {
    return meanUs;
  }

  double survivingProbability() {
    return survivingProbability;
  }

  /** Squared modulus of the characteristic function of the delay. */
  double squaredModulusRatio(double perUs) {
    double real = 0;
    double imaginary = 0;
    for (int i = 0; i < PLACES; i++) {
      double angle = perUs * (delaysUs[i] - meanUs);
      real += weights[i] * StrictMath.cos(angle);
      imaginary += weights[i] * StrictMath.sin(angle);
    }
    return real * real + imaginary * imaginary;
  }

  double varianceUs2() {
    double sum = 0;
    for (int i = 0; i < PLACES; i++) {
      sum += weights[i] * (delaysUs[i] - meanUs) * (delaysUs[i] - meanUs);
    }
    return sum;
  }

  private static double[] poisson() {
    double[] counts = new double[130];
    counts[0] = StrictMath.exp(-MEAN_QUANTA);
    for (int n = 1; n < counts.length; n++) {
      counts[n] = counts[n - 1] * MEAN_QUANTA / n;
    }
    return counts;
  }

  private static double density(double content, double[] counts) {
    double sum = 0;
    for (int n = 1; n < counts.length; n++) {
      double deviation = QUANTUM_DEVIATION * Math.sqrt(n);
      double z = (content - n) / deviation;
      if (Math.abs(z) < 9) {
        sum += counts[n] * StrictMath.exp(-0.5 * z * z) / (deviation * Math.sqrt(2 * Math.PI));
      }
    }
    return sum;
  }
}
