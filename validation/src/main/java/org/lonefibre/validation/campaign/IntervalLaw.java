package org.lonefibre.validation.campaign;

import org.hipparchus.distribution.continuous.NormalDistribution;
import org.lonefibre.signal.random.RandomStream;

/**
 * Laws of a latency with standard deviation 20 us and the jitter of each: the mean absolute
 * difference of two independent values.
 */
public enum IntervalLaw {
  GAUSSIAN("Gaussian", 20 * 2 / Math.sqrt(Math.PI)),
  /** Sum of four exponentials; the mean difference is 35/16 of one exponential's mean. */
  GAMMA("gamma, skewness 1", 10 * 35 / 16.0),
  /** The mean difference is the mean. */
  EXPONENTIAL("exponential, skewness 2", 20),
  /** The mean difference is 2 mean (2 Phi(s / sqrt 2) - 1). */
  LOG_NORMAL("log-normal, skewness 2", logNormalJitterUs());

  private static final double SPREAD_US = 20;
  private static final double SIGMA = 0.551368;
  private static final double GROWTH = Math.exp(SIGMA * SIGMA);
  private static final double SCALE_US = SPREAD_US / Math.sqrt(GROWTH * (GROWTH - 1));

  private final String words;
  private final double jitterUs;

  IntervalLaw(String words, double jitterUs) {
    this.words = words;
    this.jitterUs = jitterUs;
  }

  /** Its name in words. */
  public String words() {
    return words;
  }

  /** Mean absolute difference of two independent values. */
  public double jitterUs() {
    return jitterUs;
  }

  /** A value; its mean is not zero. */
  public double drawUs(RandomStream random) {
    return switch (this) {
      case GAUSSIAN -> SPREAD_US * random.gaussianRatio();
      case GAMMA ->
          SPREAD_US
              / 2
              * (random.exponentialRatio()
                  + random.exponentialRatio()
                  + random.exponentialRatio()
                  + random.exponentialRatio());
      case EXPONENTIAL -> SPREAD_US * random.exponentialRatio();
      case LOG_NORMAL -> SCALE_US * Math.exp(SIGMA * random.gaussianRatio());
    };
  }

  private static double logNormalJitterUs() {
    // Constants of an enumeration do not exist yet when its values are made.
    double sigma = 0.551368;
    double growth = Math.exp(sigma * sigma);
    double scale = 20 / Math.sqrt(growth * (growth - 1));
    double below = new NormalDistribution().cumulativeProbability(sigma / Math.sqrt(2));
    return 2 * scale * Math.sqrt(growth) * (2 * below - 1);
  }
}
