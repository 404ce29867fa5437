package org.lonefibre.analysis.jitter;

import java.util.Random;

/** Laws of a latency with standard deviation 20 us, and the jitter each has. */
enum Law {
  GAUSSIAN(20 * DifferenceChain.GAUSSIAN_FACTOR) {
    @Override
    double drawUs(Random random) {
      return 20 * random.nextGaussian();
    }
  },
  /** Sum of four exponentials, skewness 1; E|X-Y| = 35/16 of one exponential's mean. */
  GAMMA_SKEWNESS_1(10 * 35 / 16.0) {
    @Override
    double drawUs(Random random) {
      double sum = 0;
      for (int i = 0; i < 4; i++) {
        sum -= Math.log(1 - random.nextDouble());
      }
      return 10 * sum;
    }
  },
  /** Exponential, skewness 2; E|X-Y| is its mean. */
  EXPONENTIAL_SKEWNESS_2(20) {
    @Override
    double drawUs(Random random) {
      return -20 * Math.log(1 - random.nextDouble());
    }
  },
  /** Log-normal with skewness 2; E|X-Y| = 2 mean (2 Phi(s/sqrt 2) - 1). */
  LOG_NORMAL_SKEWNESS_2(LogNormal.JITTER_US) {
    @Override
    double drawUs(Random random) {
      return LogNormal.SCALE_US * Math.exp(LogNormal.SIGMA * random.nextGaussian());
    }
  },
  /** Difference of two exponentials, each of SD 20 / sqrt 2; E|X-Y| = 1.5 of one mean. */
  LAPLACE(1.5 * 20 / Math.sqrt(2)) {
    @Override
    double drawUs(Random random) {
      double first = Math.log(1 - random.nextDouble());
      double second = Math.log(1 - random.nextDouble());
      return 20 / Math.sqrt(2) * (first - second);
    }
  };

  private static final class LogNormal {
    static final double SIGMA = 0.551368;
    private static final double W = Math.exp(SIGMA * SIGMA);
    static final double SCALE_US = 20 / Math.sqrt(W * (W - 1));
    static final double JITTER_US =
        2
            * SCALE_US
            * Math.sqrt(W)
            * (2
                    * new org.hipparchus.distribution.continuous.NormalDistribution()
                        .cumulativeProbability(SIGMA / Math.sqrt(2))
                - 1);
  }

  private final double jitterUs;

  Law(double jitterUs) {
    this.jitterUs = jitterUs;
  }

  /** Mean absolute difference of two independent values. */
  double jitterUs() {
    return jitterUs;
  }

  abstract double drawUs(Random random);
}
