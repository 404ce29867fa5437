package org.lonefibre.analysis.potential;

/** Normal equations of a small complex least-squares problem, solved by elimination. */
final class ComplexSystem {

  private final int n;
  private final double[][] re;
  private final double[][] im;
  private final double[] rightRe;
  private final double[] rightIm;
  private final double[] phasorRe;
  private final double[] phasorIm;

  ComplexSystem(int n) {
    this.n = n;
    re = new double[n][n];
    im = new double[n][n];
    rightRe = new double[n];
    rightIm = new double[n];
    phasorRe = new double[n];
    phasorIm = new double[n];
  }

  void addToDiagonal(int p, double value) {
    re[p][p] += value;
  }

  void addToRight(int p, double real, double imaginary) {
    rightRe[p] += real;
    rightIm[p] += imaginary;
  }

  /** Coefficient of unknown {@code p} in the next equation. */
  void setPhasor(int p, double real, double imaginary) {
    phasorRe[p] = real;
    phasorIm[p] = imaginary;
  }

  /** Adds the equation: sum of coefficient times unknown equals the value. */
  void addEquation(double real, double imaginary) {
    for (int p = 0; p < n; p++) {
      double a = phasorRe[p];
      double b = phasorIm[p];
      rightRe[p] += a * real + b * imaginary;
      rightIm[p] += a * imaginary - b * real;
      for (int q = 0; q < n; q++) {
        re[p][q] += a * phasorRe[q] + b * phasorIm[q];
        im[p][q] += a * phasorIm[q] - b * phasorRe[q];
      }
    }
  }

  /** Solves in place; the matrix is Hermitian and positive definite. */
  void solve() {
    for (int k = 0; k < n; k++) {
      double pivot = Math.max(re[k][k], 1e-30);
      for (int i = k + 1; i < n; i++) {
        double fr = re[i][k] / pivot;
        double fi = im[i][k] / pivot;
        for (int j = k; j < n; j++) {
          re[i][j] -= fr * re[k][j] - fi * im[k][j];
          im[i][j] -= fr * im[k][j] + fi * re[k][j];
        }
        rightRe[i] -= fr * rightRe[k] - fi * rightIm[k];
        rightIm[i] -= fr * rightIm[k] + fi * rightRe[k];
      }
    }
    for (int i = n - 1; i >= 0; i--) {
      for (int j = i + 1; j < n; j++) {
        rightRe[i] -= re[i][j] * rightRe[j] - im[i][j] * rightIm[j];
        rightIm[i] -= re[i][j] * rightIm[j] + im[i][j] * rightRe[j];
      }
      double pivot = Math.max(re[i][i], 1e-30);
      rightRe[i] /= pivot;
      rightIm[i] /= pivot;
    }
  }

  double real(int p) {
    return rightRe[p];
  }

  double imaginary(int p) {
    return rightIm[p];
  }
}
