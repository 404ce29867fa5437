package org.lonefibre.analysis.potential;

/** How badly one shape explains a window with one spike in it. Thread rule: no state. */
final class SpikeMisfit {

  private static final double SIZE_SPREAD = 0.07;

  private SpikeMisfit() {}

  /**
   * What is left of a window when a shape is placed near a position, over the noise, and how far
   * its size is from the usual one.
   */
  static double of(
      PotentialShape shape, double usual, double[] window, double position, double noiseUv) {
    JointFit fit = new JointFit(new PotentialShape[] {shape});
    fit.start(0, position, usual);
    fit.fit(window, noiseUv);
    double away = (fit.scaleRatio(0) / usual - 1) / SIZE_SPREAD;
    return energy(fit.residual(), noiseUv) + away * away;
  }

  /** Sum of squares over that of the noise in one sample. */
  static double energy(double[] window, double noiseUv) {
    double sum = 0;
    for (double value : window) {
      sum += value * value;
    }
    return sum / (noiseUv * noiseUv);
  }
}
