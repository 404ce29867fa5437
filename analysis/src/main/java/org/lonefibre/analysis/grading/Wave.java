package org.lonefibre.analysis.grading;

/** Arithmetic of sampled waves; none of them is changed. */
final class Wave {

  private Wave() {}

  /** Change a sample, 0 at both ends. */
  static double[] slope(double[] wave) {
    double[] slope = new double[wave.length];
    for (int k = 1; k < wave.length - 1; k++) {
      slope[k] = (wave[k + 1] - wave[k - 1]) / 2;
    }
    return slope;
  }

  /** The sample where it changes most. */
  static int steepest(double[] slope) {
    int steepest = 0;
    for (int k = 0; k < slope.length; k++) {
      steepest = Math.abs(slope[k]) > Math.abs(slope[steepest]) ? k : steepest;
    }
    return steepest;
  }

  /** What is added when a wave with this slope widens about its steepest point, per unit. */
  static double[] widening(double[] slope) {
    return widening(slope, steepest(slope));
  }

  /** The same about any point, which may lie outside. */
  static double[] widening(double[] slope, double centre) {
    double[] widening = new double[slope.length];
    for (int k = 0; k < slope.length; k++) {
      widening[k] = (k - centre) * slope[k];
    }
    return widening;
  }

  /** Later by whole samples; zeros come in. */
  static double[] later(double[] wave, int samples) {
    double[] later = new double[wave.length];
    for (int k = 0; k < wave.length; k++) {
      int from = k - samples;
      later[k] = from >= 0 && from < wave.length ? wave[from] : 0;
    }
    return later;
  }

  static double[] times(double factor, double[] wave) {
    double[] product = new double[wave.length];
    for (int k = 0; k < wave.length; k++) {
      product[k] = factor * wave[k];
    }
    return product;
  }

  /** What is left of a wave across a direction of length 1. */
  static double[] across(double[] wave, double[] direction) {
    double along = dot(wave, direction);
    double[] left = new double[wave.length];
    for (int k = 0; k < wave.length; k++) {
      left[k] = wave[k] - along * direction[k];
    }
    return left;
  }

  static double norm(double[] wave) {
    return Math.sqrt(dot(wave, wave));
  }

  static double dot(double[] a, double[] b) {
    // Four sums: none waits for another.
    double sum = 0;
    double second = 0;
    double third = 0;
    double fourth = 0;
    int k = 0;
    for (; k + 3 < a.length; k += 4) {
      sum += a[k] * b[k];
      second += a[k + 1] * b[k + 1];
      third += a[k + 2] * b[k + 2];
      fourth += a[k + 3] * b[k + 3];
    }
    for (; k < a.length; k++) {
      sum += a[k] * b[k];
    }
    return (sum + second) + (third + fourth);
  }
}
