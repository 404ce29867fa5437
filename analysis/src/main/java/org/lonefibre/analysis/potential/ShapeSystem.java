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
  private final double[][][] normal;
  private final double[][] right;
  private final double[] real;
  private final double[] imaginary;
  private int windows;

  /**
   * @param size length of the windows, a power of two
   */
  ShapeSystem(int potentials, int size) {
    this.potentials = potentials;
    this.size = size;
    this.transform = new DoubleFFT_1D(size);
    this.normal = new double[potentials][potentials][size];
    this.right = new double[potentials][size];
    this.real = new double[potentials];
    this.imaginary = new double[potentials];
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
    double[] turnRe = new double[potentials];
    double[] turnIm = new double[potentials];
    for (int p = 0; p < potentials; p++) {
      double angle = 2 * Math.PI * place[p] / size;
      turnRe[p] = Math.cos(angle);
      turnIm[p] = -Math.sin(angle);
      real[p] = scale[p];
      imaginary[p] = 0;
    }
    for (int bin = 1; bin < size / 2; bin++) {
      double re = spectrum[2 * bin];
      double im = spectrum[2 * bin + 1];
      for (int p = 0; p < potentials; p++) {
        double before = real[p];
        real[p] = before * turnRe[p] - imaginary[p] * turnIm[p];
        imaginary[p] = before * turnIm[p] + imaginary[p] * turnRe[p];
        right[p][2 * bin] += real[p] * re + imaginary[p] * im;
        right[p][2 * bin + 1] += real[p] * im - imaginary[p] * re;
        for (int q = 0; q <= p; q++) {
          normal[p][q][2 * bin] += real[p] * real[q] + imaginary[p] * imaginary[q];
          normal[p][q][2 * bin + 1] += real[p] * imaginary[q] - imaginary[p] * real[q];
        }
      }
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
        double[] factor = p >= q ? normal[p][q] : normal[q][p];
        double turn = p >= q ? 1 : -1;
        for (int k = 2; k < size; k += 2) {
          double re = factor[k];
          double im = turn * factor[k + 1];
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
