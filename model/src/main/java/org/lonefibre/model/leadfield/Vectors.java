package org.lonefibre.model.leadfield;

/**
 * Arithmetic of real vectors, or of complex ones that hold all real parts, then all imaginary ones.
 *
 * <p>Thread rule: no state.
 */
enum Vectors {
  REAL,
  COMPLEX;

  /** Numbers kept for one entry. */
  int parts() {
    return this == REAL ? 1 : 2;
  }

  /** Sum of the first's conjugate times the second, real and imaginary part. */
  double[] dot(double[] a, double[] b) {
    if (this == REAL) {
      double even = 0;
      double odd = 0;
      for (int i = 0; i + 1 < a.length; i += 2) {
        even += a[i] * b[i];
        odd += a[i + 1] * b[i + 1];
      }
      int last = a.length - 1;
      return new double[] {even + odd + (a.length % 2 == 1 ? a[last] * b[last] : 0), 0};
    }
    int half = a.length / 2;
    double re = 0;
    double moreRe = 0;
    double im = 0;
    double lessIm = 0;
    for (int i = 0; i < half; i++) {
      re += a[i] * b[i];
      moreRe += a[half + i] * b[half + i];
      im += a[i] * b[half + i];
      lessIm += a[half + i] * b[i];
    }
    return new double[] {re + moreRe, im - lessIm};
  }

  /** Adds a complex factor times a vector. */
  void add(double[] sum, double re, double im, double[] vector) {
    if (this == REAL) {
      for (int i = 0; i < sum.length; i++) {
        sum[i] += re * vector[i];
      }
      return;
    }
    int half = sum.length / 2;
    for (int i = 0; i < half; i++) {
      sum[i] += re * vector[i] - im * vector[half + i];
      sum[half + i] += re * vector[half + i] + im * vector[i];
    }
  }

  void scale(double[] vector, double factor) {
    for (int i = 0; i < vector.length; i++) {
      vector[i] *= factor;
    }
  }

  double norm(double[] vector) {
    return Math.sqrt(REAL.dot(vector, vector)[0]);
  }
}
