package org.lonefibre.analysis.potential;

import org.jtransforms.fft.DoubleFFT_1D;

/**
 * The linear problem behind shapes that overlap: which shapes of limited length, placed at known
 * arrivals, explain the windows of many discharges best? In frequency each placed shape is a
 * spectrum times a phase, which sums them quickly; the limits in time and what is known of shapes
 * before couple the frequencies, so the problem is solved in time, by conjugate gradients.
 *
 * <ul>
 *   <li>Shapes are {@code [potential][sample]}, all of one length; spectra come as {@link
 *       Spectrum}.
 *   <li>Thread rule: one instance a thread.
 * </ul>
 */
final class ShapeSystem {

  private static final int ROUNDS = 30;
  private static final int LANES = 4;
  private static final double RESOLVED = 1e-10;

  /** Nothing is left to solve once what is left is this share of the right side. */
  private static final double NOTHING = 1e-13;

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
  private final double[][] phaseRe;
  private final double[][] phaseIm;
  private int windows;

  /** A spectrum, real parts and imaginary parts, without its last frequency. */
  static final class Spectrum {

    private final double[] re;
    private final double[] im;

    /**
     * @param window of which it is made, used up
     */
    Spectrum(double[] window, DoubleFFT_1D transform) {
      transform.realForward(window);
      int bins = window.length / 2;
      re = new double[bins];
      im = new double[bins];
      for (int bin = 1; bin < bins; bin++) {
        re[bin] = window[2 * bin];
        im[bin] = window[2 * bin + 1];
      }
    }
  }

  /**
   * @param size length of the windows, a power of two, 8 or more
   * @param transform of that length
   */
  ShapeSystem(int potentials, int size, DoubleFFT_1D transform) {
    this.potentials = potentials;
    this.size = size;
    this.transform = transform;
    int bins = size / 2;
    this.normalRe = new double[potentials][potentials][bins];
    this.normalIm = new double[potentials][potentials][bins];
    this.squares = new double[potentials];
    this.rightRe = new double[potentials][bins];
    this.rightIm = new double[potentials][bins];
    this.phaseRe = new double[potentials][bins];
    this.phaseIm = new double[potentials][bins];
  }

  /**
   * Adds one discharge.
   *
   * @param spectrum of its window
   * @param place where the first sample of each shape lies in the window
   * @param scale size of each potential, 0 if it is not there
   */
  void add(Spectrum spectrum, double[] place, double[] scale) {
    windows++;
    for (int p = 0; p < potentials; p++) {
      turn(2 * Math.PI * place[p] / size, scale[p], phaseRe[p], phaseIm[p]);
      squares[p] += scale[p] * scale[p];
      addProducts(phaseRe[p], phaseIm[p], spectrum.re, spectrum.im, rightRe[p], rightIm[p]);
      for (int q = 0; q < p; q++) {
        addProducts(phaseRe[p], phaseIm[p], phaseRe[q], phaseIm[q], normalRe[p][q], normalIm[p][q]);
      }
    }
  }

  /**
   * Phases of a place at all frequencies; four at a time, so that one need not wait for another.
   */
  private static void turn(double angle, double scale, double[] re, double[] im) {
    double turnRe = Math.cos(LANES * angle);
    double turnIm = -Math.sin(LANES * angle);
    double aRe = scale;
    double aIm = 0;
    double bRe = scale * Math.cos(angle);
    double bIm = -scale * Math.sin(angle);
    double cRe = scale * Math.cos(2 * angle);
    double cIm = -scale * Math.sin(2 * angle);
    double dRe = scale * Math.cos(3 * angle);
    double dIm = -scale * Math.sin(3 * angle);
    for (int bin = 0; bin + LANES <= re.length; bin += LANES) {
      re[bin] = aRe;
      im[bin] = aIm;
      re[bin + 1] = bRe;
      im[bin + 1] = bIm;
      re[bin + 2] = cRe;
      im[bin + 2] = cIm;
      re[bin + 3] = dRe;
      im[bin + 3] = dIm;
      double before = aRe;
      aRe = before * turnRe - aIm * turnIm;
      aIm = before * turnIm + aIm * turnRe;
      before = bRe;
      bRe = before * turnRe - bIm * turnIm;
      bIm = before * turnIm + bIm * turnRe;
      before = cRe;
      cRe = before * turnRe - cIm * turnIm;
      cIm = before * turnIm + cIm * turnRe;
      before = dRe;
      dRe = before * turnRe - dIm * turnIm;
      dIm = before * turnIm + dIm * turnRe;
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
    }
    double[][][] overlaps = overlaps(length);
    double[][] image = image(shapes, overlaps, weights);
    double whole = 0;
    for (int p = 0; p < potentials; p++) {
      double[] right = inTime(rightRe[p], rightIm[p]);
      for (int k = 0; k < length; k++) {
        residual[p][k] = right[k] - image[p][k];
        condition[p][k] = 1 / (windows + weights[p].at(k));
        whole += right[k] * right[k] * condition[p][k];
      }
    }
    double[][] conditioned = product(condition, residual);
    double[][] direction = conditioned;
    double square = dot(residual, conditioned);
    double enough = Math.max(RESOLVED * square, NOTHING * whole);
    for (int round = 0; round < ROUNDS && square > enough; round++) {
      image = image(direction, overlaps, weights);
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

  private double[] inTime(double[] re, double[] im) {
    double[] wave = new double[size];
    for (int bin = 1; bin < size / 2; bin++) {
      wave[2 * bin] = re[bin];
      wave[2 * bin + 1] = im[bin];
    }
    transform.realInverse(wave, true);
    return wave;
  }

  /**
   * How one potential shows in the place of another, {@code [of][in][distance]}: from the longest
   * distance before it to the longest behind it.
   */
  private double[][][] overlaps(int length) {
    double[][][] overlaps = new double[potentials][potentials][2 * length - 1];
    for (int p = 0; p < potentials; p++) {
      for (int q = 0; q < p; q++) {
        double[] wave = inTime(normalRe[p][q], normalIm[p][q]);
        for (int k = 0; k < 2 * length - 1; k++) {
          int distance = k - length + 1;
          overlaps[q][p][k] = wave[Math.floorMod(-distance, size)];
          overlaps[p][q][k] = wave[Math.floorMod(distance, size)];
        }
      }
    }
    return overlaps;
  }

  /** The normal equations applied to shapes. */
  private double[][] image(double[][] shapes, double[][][] overlaps, ShapePrior.Weight[] weights) {
    int length = shapes[0].length;
    double[][] image = new double[potentials][];
    for (int p = 0; p < potentials; p++) {
      image[p] = weights[p].of(shapes[p]);
      addOwn(shapes[p], squares[p], image[p]);
      for (int q = 0; q < potentials; q++) {
        if (q != p) {
          double[] shown = Projections.along(overlaps[q][p], 0, shapes[q], length);
          for (int k = 0; k < length; k++) {
            image[p][k] += shown[length - 1 - k];
          }
        }
      }
    }
    return image;
  }

  /** Adds a shape so many times, without what it has at the lowest and at the last frequency. */
  private void addOwn(double[] shape, double times, double[] to) {
    double[] part = new double[2];
    for (int k = 0; k < shape.length; k++) {
      part[k % 2] += shape[k] / size;
    }
    double[] left = {2 * part[0], 2 * part[1]};
    for (int k = 0; k < shape.length; k++) {
      to[k] += times * (shape[k] - left[k % 2]);
    }
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
