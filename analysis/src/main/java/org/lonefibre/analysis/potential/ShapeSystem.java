package org.lonefibre.analysis.potential;

import java.util.Arrays;
import org.jtransforms.fft.DoubleFFT_1D;

/**
 * The linear problem behind shapes that overlap: which shapes of limited length, placed at known
 * arrivals, explain the windows of many discharges best? In frequency each placed shape is a
 * spectrum times a phase; the limits in time and what is known of shapes before couple the
 * frequencies, so the problem is solved by conjugate gradients.
 *
 * <ul>
 *   <li>Shapes are {@code [potential][sample]}, all of one length; spectra as JTransforms packs
 *       them.
 *   <li>Thread rule: one instance a thread.
 * </ul>
 */
final class ShapeSystem {

  private static final int ROUNDS = 30;
  private static final double RESOLVED = 1e-10;

  private final int potentials;
  private final int size;
  private final DoubleFFT_1D transform;

  /** Sums of products of phases, a frequency after the other, real parts and imaginary parts. */
  private final double[][][] normalRe;

  private final double[][][] normalIm;

  /** The same of a potential with itself: at every frequency the sum of its squared sizes. */
  private final double[] squares;

  private final double[][] rightRe;
  private final double[][] rightIm;
  private final double[][] right;
  private final double[][] phaseRe;
  private final double[][] phaseIm;
  private int windows;

  /**
   * @param size length of the windows, a power of two
   */
  ShapeSystem(int potentials, int size) {
    this.potentials = potentials;
    this.size = size;
    this.transform = new DoubleFFT_1D(size);
    int bins = size / 2;
    this.normalRe = new double[potentials][potentials][bins];
    this.normalIm = new double[potentials][potentials][bins];
    this.squares = new double[potentials];
    this.rightRe = new double[potentials][bins];
    this.rightIm = new double[potentials][bins];
    this.right = new double[potentials][size];
    this.phaseRe = new double[potentials][bins];
    this.phaseIm = new double[potentials][bins];
  }

  /**
   * Adds one discharge.
   *
   * @param spectrum of its window, as JTransforms packs it
   * @param place where the first sample of each shape lies in the window
   * @param scale size of each potential, 0 if it is not there
   */
  void add(double[] spectrum, double[] place, double[] scale) {
    windows++;
    for (int p = 0; p < potentials; p++) {
      turn(2 * Math.PI * place[p] / size, scale[p], phaseRe[p], phaseIm[p]);
      squares[p] += scale[p] * scale[p];
      addProducts(spectrum, phaseRe[p], phaseIm[p], rightRe[p], rightIm[p]);
      for (int q = 0; q < p; q++) {
        addProducts(phaseRe[p], phaseIm[p], phaseRe[q], phaseIm[q], normalRe[p][q], normalIm[p][q]);
      }
    }
  }

  /** Phases of a place at all frequencies; two at a time, so that one need not wait for another. */
  private static void turn(double angle, double scale, double[] re, double[] im) {
    double turnRe = Math.cos(2 * angle);
    double turnIm = -Math.sin(2 * angle);
    double evenRe = scale;
    double evenIm = 0;
    double oddRe = scale * Math.cos(angle);
    double oddIm = -scale * Math.sin(angle);
    for (int bin = 0; bin + 1 < re.length; bin += 2) {
      re[bin] = evenRe;
      im[bin] = evenIm;
      re[bin + 1] = oddRe;
      im[bin + 1] = oddIm;
      double before = evenRe;
      evenRe = before * turnRe - evenIm * turnIm;
      evenIm = before * turnIm + evenIm * turnRe;
      before = oddRe;
      oddRe = before * turnRe - oddIm * turnIm;
      oddIm = before * turnIm + oddIm * turnRe;
    }
  }

  private static void addProducts(
      double[] spectrum, double[] re, double[] im, double[] sumRe, double[] sumIm) {
    for (int bin = 1; bin < re.length; bin++) {
      double spectrumRe = spectrum[2 * bin];
      double spectrumIm = spectrum[2 * bin + 1];
      sumRe[bin] += re[bin] * spectrumRe + im[bin] * spectrumIm;
      sumIm[bin] += re[bin] * spectrumIm - im[bin] * spectrumRe;
    }
  }

  private static void addProducts(
      double[] re, double[] im, double[] otherRe, double[] otherIm, double[] toRe, double[] toIm) {
    for (int bin = 1; bin < re.length; bin++) {
      toRe[bin] += re[bin] * otherRe[bin] + im[bin] * otherIm[bin];
    }
    for (int bin = 1; bin < re.length; bin++) {
      toIm[bin] += re[bin] * otherIm[bin] - im[bin] * otherRe[bin];
    }
  }

  /**
   * The shapes, from near ones; the system is used up.
   *
   * @param weights of what is known of each shape before
   */
  double[][] solve(double[][] near, ShapePrior.Weight[] weights) {
    int length = near[0].length;
    double[][] shapes = new double[potentials][];
    double[][] residual = new double[potentials][length];
    double[][] condition = new double[potentials][length];
    for (int p = 0; p < potentials; p++) {
      shapes[p] = near[p].clone();
      for (int bin = 1; bin < size / 2; bin++) {
        right[p][2 * bin] = rightRe[p][bin];
        right[p][2 * bin + 1] = rightIm[p][bin];
      }
      transform.realInverse(right[p], true);
    }
    double[][] image = image(shapes, weights);
    for (int p = 0; p < potentials; p++) {
      for (int k = 0; k < length; k++) {
        residual[p][k] = right[p][k] - image[p][k];
        condition[p][k] = 1 / (windows + weights[p].at(k));
      }
    }
    double[][] conditioned = product(condition, residual);
    double[][] direction = conditioned;
    double square = dot(residual, conditioned);
    double enough = RESOLVED * square;
    for (int round = 0; round < ROUNDS && square > enough; round++) {
      image = image(direction, weights);
      double step = square / dot(direction, image);
      add(shapes, step, direction);
      add(residual, -step, image);
      conditioned = product(condition, residual);
      double now = dot(residual, conditioned);
      add(conditioned, now / square, direction);
      direction = conditioned;
      square = now;
    }
    return shapes;
  }

  /** The normal equations applied to shapes. */
  private double[][] image(double[][] shapes, ShapePrior.Weight[] weights) {
    int length = shapes[0].length;
    double[][] spectrum = new double[potentials][];
    for (int p = 0; p < potentials; p++) {
      spectrum[p] = Arrays.copyOf(shapes[p], size);
      transform.realForward(spectrum[p]);
    }
    double[][] image = new double[potentials][length];
    for (int p = 0; p < potentials; p++) {
      double[] sum = new double[size];
      for (int q = 0; q < potentials; q++) {
        if (p == q) {
          for (int k = 2; k < size; k++) {
            sum[k] += squares[p] * spectrum[p][k];
          }
          continue;
        }
        double[] factorRe = p > q ? normalRe[p][q] : normalRe[q][p];
        double[] factorIm = p > q ? normalIm[p][q] : normalIm[q][p];
        double turn = p > q ? 1 : -1;
        for (int bin = 1; bin < size / 2; bin++) {
          double re = factorRe[bin];
          double im = turn * factorIm[bin];
          int k = 2 * bin;
          sum[k] += re * spectrum[q][k] - im * spectrum[q][k + 1];
          sum[k + 1] += re * spectrum[q][k + 1] + im * spectrum[q][k];
        }
      }
      transform.realInverse(sum, true);
      double[] known = weights[p].of(shapes[p]);
      for (int k = 0; k < length; k++) {
        image[p][k] = sum[k] + known[k];
      }
    }
    return image;
  }

  private static void add(double[][] to, double factor, double[][] what) {
    for (int p = 0; p < to.length; p++) {
      for (int k = 0; k < to[p].length; k++) {
        to[p][k] += factor * what[p][k];
      }
    }
  }

  private static double[][] product(double[][] a, double[][] b) {
    double[][] product = new double[a.length][a[0].length];
    for (int p = 0; p < a.length; p++) {
      for (int k = 0; k < a[p].length; k++) {
        product[p][k] = a[p][k] * b[p][k];
      }
    }
    return product;
  }

  private static double dot(double[][] a, double[][] b) {
    double sum = 0;
    for (int p = 0; p < a.length; p++) {
      for (int k = 0; k < a[p].length; k++) {
        sum += a[p][k] * b[p][k];
      }
    }
    return sum;
  }
}
