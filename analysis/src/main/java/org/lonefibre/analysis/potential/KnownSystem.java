package org.lonefibre.analysis.potential;

/**
 * Linear equations with a symmetric positive definite matrix, factorised once and solved for as
 * many right sides as wanted (Cholesky).
 *
 * <ul>
 *   <li>Rows only are gone along, by sums that do not wait for each other.
 *   <li>Thread rule: immutable.
 * </ul>
 */
final class KnownSystem {

  private static final double SMALLEST_PIVOT = 1e-14;

  /** The factor, row by row, each up to its diagonal. */
  private final double[][] lower;

  /**
   * @param matrix symmetric; only what lies below its diagonal and on it is read
   * @throws IllegalArgumentException if it is not positive definite
   */
  KnownSystem(double[][] matrix) {
    int n = matrix.length;
    lower = new double[n][];
    for (int i = 0; i < n; i++) {
      double[] row = new double[i + 1];
      for (int j = 0; j < i; j++) {
        row[j] = (matrix[i][j] - Projections.product(row, 0, lower[j], 0, j)) / lower[j][j];
      }
      double pivot = matrix[i][i] - Projections.product(row, 0, row, 0, i);
      if (!(pivot > SMALLEST_PIVOT)) {
        throw new IllegalArgumentException(
            "the matrix must be positive definite, found " + pivot + " on its diagonal");
      }
      row[i] = Math.sqrt(pivot);
      lower[i] = row;
    }
  }

  /** The solution; the right side is kept. */
  double[] solve(double[] right) {
    int n = lower.length;
    double[] x = right.clone();
    for (int i = 0; i < n; i++) {
      x[i] = (x[i] - Projections.product(x, 0, lower[i], 0, i)) / lower[i][i];
    }
    for (int i = n - 1; i >= 0; i--) {
      double[] row = lower[i];
      double value = x[i] / row[i];
      x[i] = value;
      for (int k = 0; k < i; k++) {
        x[k] -= value * row[k];
      }
    }
    return x;
  }
}
