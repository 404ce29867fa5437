package org.lonefibre.analysis.jitter;

import org.hipparchus.distribution.continuous.TDistribution;

/**
 * The 95 % interval of a mean of absolute differences, on the logarithmic scale.
 *
 * <p>Differences that share an interval depend on each other: the variance of their mean is
 *
 * <pre>V = (sum e_i^2 + 2 sum e_i e_(i+1)) / (n (n-1)),  e = |difference| - mean,</pre>
 *
 * the second sum over those that share an interval. The quantile is Student's with {@code n / 4.5}
 * degrees of freedom (n / 2.3 where nothing is shared), which makes Gaussian series right from 20
 * differences on; found by simulation, see {@code docs/measures/interval-95.md}.
 *
 * <ul>
 *   <li>All differences equal: both ends are the mean.
 *   <li>The sum is held above a third of its first part, the least that series of positive spread
 *       can have.
 * </ul>
 */
record MeanDifferenceInterval(double lowUs, double highUs) {

  private static final double LINKED_DIVISOR = 4.5;
  private static final double FREE_DIVISOR = 2.3;
  private static final double LEAST_SHARE = 1 / 3.0;
  private static final double UPPER_PROBABILITY = 0.975;

  static MeanDifferenceInterval of(DifferenceChain chain) {
    int n = chain.size();
    double mean = chain.meanUs();
    if (n < 2 || mean == 0) {
      return new MeanDifferenceInterval(mean, mean);
    }
    double own = 0;
    double shared = 0;
    int links = 0;
    double last = 0;
    for (int i = 0; i < n; i++) {
      double deviation = chain.absoluteUs(i) - mean;
      own += deviation * deviation;
      if (chain.isLinkedToLast(i)) {
        shared += deviation * last;
        links++;
      }
      last = deviation;
    }
    double variance = Math.max(own + 2 * shared, LEAST_SHARE * own) / (n * (n - 1.0));
    double linkedShare = links / (n - 1.0);
    double divisor = FREE_DIVISOR + (LINKED_DIVISOR - FREE_DIVISOR) * linkedShare;
    double quantile =
        new TDistribution(Math.max(1, n / divisor)).inverseCumulativeProbability(UPPER_PROBABILITY);
    double reach = quantile * Math.sqrt(variance) / mean;
    return new MeanDifferenceInterval(mean * Math.exp(-reach), mean * Math.exp(reach));
  }
}
