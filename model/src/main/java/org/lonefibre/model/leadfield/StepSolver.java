package org.lonefibre.model.leadfield;

import java.util.Arrays;

/**
 * Solves a linear system by generalised minimal residuals (Saad and Schultz 1986, from memory),
 * preconditioned from the right, without restart.
 */
final class StepSolver {

  private static final int MOST_STEPS = 300;

  /** Product of the matrix with a vector. */
  @FunctionalInterface
  interface Product {
    void multiply(double[] vector, double[] product);
  }

  /** Changes a vector into what nearly solves it. */
  @FunctionalInterface
  interface Nearly {
    void solve(double[] vector);
  }

  private StepSolver() {}

  static double[] solve(Product matrix, Nearly nearly, double[] right, double tolerance) {
    int size = right.length;
    double norm = norm(right);
    double[] solution = new double[size];
    if (norm == 0) {
      return solution;
    }
    double[][] basis = new double[MOST_STEPS + 1][];
    double[][] columns = new double[MOST_STEPS][];
    double[] cosines = new double[MOST_STEPS];
    double[] sines = new double[MOST_STEPS];
    double[] residuals = new double[MOST_STEPS + 1];
    basis[0] = scaled(right, 1 / norm);
    residuals[0] = norm;
    int step = 0;
    double[] work = new double[size];
    while (step < MOST_STEPS && Math.abs(residuals[step]) > tolerance * norm) {
      System.arraycopy(basis[step], 0, work, 0, size);
      nearly.solve(work);
      double[] next = new double[size];
      matrix.multiply(work, next);
      double[] column = new double[step + 2];
      for (int k = 0; k <= step; k++) {
        column[k] = dot(next, basis[k]);
        addScaled(next, -column[k], basis[k]);
      }
      double length = norm(next);
      column[step + 1] = length;
      for (int k = 0; k < step; k++) {
        double turned = cosines[k] * column[k] + sines[k] * column[k + 1];
        column[k + 1] = -sines[k] * column[k] + cosines[k] * column[k + 1];
        column[k] = turned;
      }
      double hypotenuse = Math.hypot(column[step], column[step + 1]);
      cosines[step] = column[step] / hypotenuse;
      sines[step] = column[step + 1] / hypotenuse;
      column[step] = hypotenuse;
      residuals[step + 1] = -sines[step] * residuals[step];
      residuals[step] *= cosines[step];
      columns[step] = column;
      step++;
      basis[step] = length > 0 ? scaled(next, 1 / length) : next;
    }
    if (!(Math.abs(residuals[step]) <= tolerance * norm)) {
      throw new LeadFieldException(
          "the boundary equation is solved to "
              + residuals[step] / norm
              + " after "
              + step
              + " steps, "
              + tolerance
              + " was asked");
    }
    double[] weights = Arrays.copyOf(residuals, step);
    for (int i = step - 1; i >= 0; i--) {
      for (int j = i + 1; j < step; j++) {
        weights[i] -= columns[j][i] * weights[j];
      }
      weights[i] /= columns[i][i];
      addScaled(solution, weights[i], basis[i]);
    }
    nearly.solve(solution);
    return solution;
  }

  private static double[] scaled(double[] vector, double factor) {
    double[] scaled = new double[vector.length];
    for (int i = 0; i < vector.length; i++) {
      scaled[i] = factor * vector[i];
    }
    return scaled;
  }

  private static void addScaled(double[] sum, double factor, double[] vector) {
    for (int i = 0; i < sum.length; i++) {
      sum[i] += factor * vector[i];
    }
  }

  private static double dot(double[] a, double[] b) {
    double sum = 0;
    for (int i = 0; i < a.length; i++) {
      sum += a[i] * b[i];
    }
    return sum;
  }

  private static double norm(double[] vector) {
    return Math.sqrt(dot(vector, vector));
  }
}
