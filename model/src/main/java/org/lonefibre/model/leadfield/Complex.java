package org.lonefibre.model.leadfield;

/** Arithmetic of pairs: real part, imaginary part. */
final class Complex {

  private Complex() {}

  static double[] plus(double[] a, double[] b) {
    return new double[] {a[0] + b[0], a[1] + b[1]};
  }

  static double[] minus(double[] a, double[] b) {
    return new double[] {a[0] - b[0], a[1] - b[1]};
  }

  static double[] times(double[] a, double[] b) {
    return new double[] {a[0] * b[0] - a[1] * b[1], a[0] * b[1] + a[1] * b[0]};
  }

  /** One over it. */
  static double[] over(double[] a) {
    double squared = a[0] * a[0] + a[1] * a[1];
    return new double[] {a[0] / squared, -a[1] / squared};
  }

  static double magnitude(double[] a) {
    return Math.hypot(a[0], a[1]);
  }
}
