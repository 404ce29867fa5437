package org.lonefibre.analysis.grading;

import java.util.Arrays;
import org.lonefibre.signal.robust.RobustStatistics;

/**
 * How much likelier it is that a potential moves as it does at one delay if a second fibre is there
 * than if noise alone moves it: the mean likelihood over what a second fibre may be, against that
 * of noise. Where a second fibre could not hide, it speaks against one.
 *
 * <ul>
 *   <li>A second fibre may be 0.05 to 1 of the first (each octave as likely), with a jitter of its
 *       own of 15 or 40 us. What is aligned on the first holds the movement of both: of the spread
 *       of the arrivals against another potential 40 or 80 % of the variance are taken for the
 *       first fibre's own, and that part is known sweep by sweep. Engineering choices, from
 *       simulation; others that were tried changed little (decision 0052).
 *   <li>A sweep beyond three deviations tells nothing more: foreign potentials stand in some.
 *   <li>Thread rule: immutable.
 * </ul>
 */
final class SecondFibreLikelihood {

  private static final double[] SIZE_RATIOS = {0.05, 0.091, 0.166, 0.302, 0.549, 1};
  private static final double[] JITTERS_US = {15, 40};
  private static final double[] OWN_SHARES = {0.4, 0.8};

  /** Movement of the first fibre, where nothing tells of it. */
  private static final double USUAL_OWN_US = 25;

  private static final double LEAST_SPREAD_US = 5;
  private static final double FARTHEST_SQUARE = 9;

  private final double[] relativeUs;
  private final double spreadUs;

  private SecondFibreLikelihood(double[] relativeUs, double spreadUs) {
    this.relativeUs = relativeUs;
    this.spreadUs = spreadUs;
  }

  /** For a potential of whose arrivals nothing else tells. */
  static SecondFibreLikelihood alone() {
    return new SecondFibreLikelihood(new double[0], Double.NaN);
  }

  /**
   * For a potential beside another one of the unit.
   *
   * @param relativeUs arrival in each sweep against that one, about 0, without outliers; NaN where
   *     it is not known
   */
  static SecondFibreLikelihood beside(double[] relativeUs) {
    double[] known = Arrays.stream(relativeUs).filter(r -> !Double.isNaN(r)).toArray();
    return new SecondFibreLikelihood(
        Arrays.stream(relativeUs).map(r -> Double.isNaN(r) ? 0 : r).toArray(),
        Math.max(LEAST_SPREAD_US, RobustStatistics.standardDeviation(known)));
  }

  /**
   * Logarithm of the likelihood ratio at one delay.
   *
   * @param movesRatio in each sweep, what moves there, over the deviation of noise
   * @param noiseUs movement of a fibre as large as the potential that would be as large as the
   *     deviation of noise
   */
  double logRatio(double[] movesRatio, double noiseUs) {
    double noise = logLikelihood(movesRatio, 0, 1);
    double[] shares = relativeUs.length == 0 ? new double[] {0} : OWN_SHARES;
    double[] logs = new double[SIZE_RATIOS.length * JITTERS_US.length * shares.length];
    int count = 0;
    for (double size : SIZE_RATIOS) {
      for (double jitterUs : JITTERS_US) {
        for (double share : shares) {
          double ownVariance =
              relativeUs.length == 0
                  ? USUAL_OWN_US * USUAL_OWN_US
                  : spreadUs * spreadUs * share * (1 - share);
          double unknownVariance = size * size * (jitterUs * jitterUs + ownVariance);
          logs[count++] =
              logLikelihood(
                      movesRatio, size * share / noiseUs, 1 + unknownVariance / noiseUs / noiseUs)
                  - noise;
        }
      }
    }
    return logMean(logs);
  }

  private double logLikelihood(double[] movesRatio, double perUs, double variance) {
    double squares = 0;
    for (int i = 0; i < movesRatio.length; i++) {
      double beyond = perUs == 0 ? movesRatio[i] : movesRatio[i] - perUs * relativeUs[i];
      squares += Math.min(FARTHEST_SQUARE, beyond * beyond / variance);
    }
    return -0.5 * (movesRatio.length * Math.log(variance) + squares);
  }

  /** Logarithm of the mean of what has these logarithms. */
  static double logMean(double[] logs) {
    double most = Arrays.stream(logs).max().orElse(0);
    return most
        + Math.log(Arrays.stream(logs).map(log -> Math.exp(log - most)).average().orElse(1));
  }
}
