package org.lonefibre.analysis.potential;

/** A few linear equations. */
final class SmallSystem {

  private SmallSystem() {}

  /** The solution by elimination with pivots; zeros where there is none. The inputs are used up. */
  static double[] solve(double[][] matrix, double[] right) {
    int n = right.length;
    for (int k = 0; k < n; k++) {
      int pivot = k;
      for (int i = k + 1; i < n; i++) {
        pivot = Math.abs(matrix[i][k]) > Math.abs(matrix[pivot][k]) ? i : pivot;
      }
      if (!(Math.abs(matrix[pivot][k]) > 1e-300)) {
        return new double[n];
      }
      double[] row = matrix[pivot];
      matrix[pivot] = matrix[k];
      matrix[k] = row;
      double value = right[pivot];
      right[pivot] = right[k];
      right[k] = value;
      for (int i = k + 1; i < n; i++) {
        double factor = matrix[i][k] / matrix[k][k];
        for (int j = k; j < n; j++) {
          matrix[i][j] -= factor * matrix[k][j];
        }
        right[i] -= factor * right[k];
      }
    }
    double[] x = new double[n];
    for (int i = n - 1; i >= 0; i--) {
      double sum = right[i];
      for (int j = i + 1; j < n; j++) {
        sum -= matrix[i][j] * x[j];
      }
      x[i] = sum / matrix[i][i];
    }
    return x;
  }
}
