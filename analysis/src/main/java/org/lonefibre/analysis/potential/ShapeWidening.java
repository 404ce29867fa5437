package org.lonefibre.analysis.potential;

import org.lonefibre.signal.robust.RobustStatistics;

/**
 * What a shape leaves of a discharge in which it is wider or narrower than usual, size and arrival
 * being fitted.
 *
 * <ul>
 *   <li>Thread rule: immutable.
 * </ul>
 */
final class ShapeWidening {

  /**
   * By so much the width of one fibre's potential varies at most, as a standard deviation
   * (engineering choice: simulated widths that vary by 2 % are seen to vary by 1.3 to 2.2 %, a
   * second fibre would need 3 to 4.5 %).
   */
  private static final double MOST = 0.025;

  private final double[] wave;
  private final double energy;

  ShapeWidening(PotentialShape shape) {
    double[] samples = shape.samples();
    double[] slope = new double[samples.length];
    for (int k = 1; k < slope.length - 1; k++) {
      slope[k] = (samples[k + 1] - samples[k - 1]) / 2;
    }
    wave = new double[samples.length];
    for (int k = 0; k < wave.length; k++) {
      wave[k] = (k - shape.origin()) * slope[k];
    }
    double[] across = samples.clone();
    takeOut(across, slope);
    takeOut(wave, slope);
    takeOut(wave, across);
    energy = Projections.dot(wave, wave);
  }

  /**
   * Takes what widening explains out of what is left of discharges, each with its arrival at the
   * origin; nothing if the width would have to vary more than that of one fibre does.
   */
  void takeOut(double[][] left) {
    double[] wider = new double[left.length];
    for (int i = 0; i < wider.length; i++) {
      wider[i] = energy > 0 ? Projections.dot(left[i], wave) / energy : 0;
    }
    if (RobustStatistics.standardDeviation(wider) < MOST) {
      for (int i = 0; i < wider.length; i++) {
        for (int k = 0; k < wave.length; k++) {
          left[i][k] -= wider[i] * wave[k];
        }
      }
    }
  }

  private static void takeOut(double[] wave, double[] direction) {
    double energy = Projections.dot(direction, direction);
    double along = energy > 0 ? Projections.dot(wave, direction) / energy : 0;
    for (int k = 0; k < wave.length; k++) {
      wave[k] -= along * direction[k];
    }
  }
}
