package org.lonefibre.validation.campaign;

import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.LUDecomposition;
import org.hipparchus.linear.RealMatrix;

/**
 * The Cramer-Rao bound of arrival times in Gaussian noise of known spectrum, shapes known, arrivals
 * and sizes unknown.
 *
 * <pre>G(i,j) = (1/M) sum over k of Re(D_i(k) conj D_j(k)) / N(k)</pre>
 *
 * <p>with D the derivative of the signal's discrete spectrum by a parameter and N the variance of
 * the noise at that frequency; the bound is the inverse of G. One potential alone: {@code 1 /
 * sqrt(sum |w S|^2 / (M N))}. Textbook.
 */
final class ArrivalBound {

  private static final int SPECTRUM = 1024;

  private ArrivalBound() {}

  /** Variance of the noise of one sample at an angular frequency (radians a sample). */
  @FunctionalInterface
  interface NoiseSpectrum {
    double at(double radians);
  }

  /**
   * Bound of the interval between two potentials of one shape.
   *
   * @param shape the potential as sampled; its ends near zero
   * @param sizeRatio size of the second over the first
   * @param distanceSamples from the first to the second
   * @return standard error in samples
   */
  static double intervalSamples(
      double[] shape, double sizeRatio, double distanceSamples, NoiseSpectrum noise) {
    int length = Math.max(SPECTRUM, 2 * shape.length + 2 * (int) Math.abs(distanceSamples));
    RealMatrix fisher = new Array2DRowRealMatrix(4, 4);
    for (int k = 1; k < length / 2; k++) {
      double w = 2 * Math.PI * k / length;
      double re = 0;
      double im = 0;
      for (int n = 0; n < shape.length; n++) {
        re += shape[n] * Math.cos(w * n);
        im -= shape[n] * Math.sin(w * n);
      }
      double power = (re * re + im * im) * 2 / length / noise.at(w);
      double turn = Math.cos(w * distanceSamples);
      double lean = Math.sin(w * distanceSamples);
      add(fisher, 0, 0, w * w * power);
      add(fisher, 1, 1, power);
      add(fisher, 2, 2, sizeRatio * sizeRatio * w * w * power);
      add(fisher, 3, 3, power);
      // Derivatives by arrival are -iw S, by size S; the second turned by its distance.
      add(fisher, 0, 2, sizeRatio * w * w * power * turn);
      add(fisher, 1, 3, power * turn);
      add(fisher, 0, 3, w * power * lean);
      add(fisher, 1, 2, -sizeRatio * w * power * lean);
    }
    RealMatrix bound = new LUDecomposition(fisher).getSolver().getInverse();
    return Math.sqrt(bound.getEntry(0, 0) + bound.getEntry(2, 2) - 2 * bound.getEntry(0, 2));
  }

  private static void add(RealMatrix fisher, int i, int j, double value) {
    fisher.addToEntry(i, j, value);
    if (i != j) {
      fisher.addToEntry(j, i, value);
    }
  }
}
