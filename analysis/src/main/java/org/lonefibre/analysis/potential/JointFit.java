package org.lonefibre.analysis.potential;

import java.util.Arrays;

/**
 * Places several shapes in one window at once: least squares in arrival and size, by Gauss-Newton
 * steps from near starting positions. Neighbours whose tails overlap are disentangled by it.
 *
 * <ul>
 *   <li>A weak prior keeps sizes near their usual value where shapes overlap almost wholly.
 *   <li>Thread rule: one instance a thread.
 * </ul>
 */
final class JointFit {

  private static final int ROUNDS = 6;
  private static final double LARGEST_STEP = 1.5;
  private static final double STALE_MOVE = 0.25;
  private static final double STALE_CHANGE = 0.05;
  private static final double SMALLEST_STEP = 1e-3;
  private static final double WEAK_PRIOR = 0.25;

  private final PotentialShape[] shapes;
  private final double sizeSpread;
  private final double[] position;
  private final double[] scale;
  private final double[] usual;
  private final double[] widening;
  private final boolean[] active;
  private final double[][] value;
  private final double[][] slope;
  private final int[] first;
  private double[] residual = new double[0];

  JointFit(PotentialShape[] shapes) {
    this(shapes, WEAK_PRIOR);
  }

  /** With another spread (1 = the usual size) of sizes around the usual one. */
  JointFit(PotentialShape[] shapes, double sizeSpread) {
    this.shapes = shapes;
    this.sizeSpread = sizeSpread;
    int n = shapes.length;
    position = new double[n];
    scale = new double[n];
    usual = new double[n];
    widening = new double[n];
    active = new boolean[n];
    first = new int[n];
    value = new double[n][];
    slope = new double[n][];
    for (int r = 0; r < n; r++) {
      value[r] = new double[shapes[r].length()];
    }
  }

  /** Takes all shapes out of the next fit. */
  void clear() {
    Arrays.fill(active, false);
  }

  /** Puts a shape into the next fit, near a position of the window, with its usual size. */
  void start(int shape, double positionSamples, double usualScale) {
    active[shape] = true;
    position[shape] = positionSamples;
    usual[shape] = usualScale;
    scale[shape] = usualScale;
  }

  /** Takes one shape out of the next fit. */
  void drop(int shape) {
    active[shape] = false;
  }

  boolean isActive(int shape) {
    return active[shape];
  }

  double positionSamples(int shape) {
    return position[shape];
  }

  double scaleRatio(int shape) {
    return scale[shape];
  }

  /** Factor by which overlap widens the standard error of the arrival, 1 or more. */
  double widening(int shape) {
    return widening[shape];
  }

  /** The window less all placed shapes, as the last fit left it. */
  double[] residual() {
    return residual;
  }

  /** Fits the active shapes to a window; noise sets the weight of the prior. */
  void fit(double[] window, double noiseUv) {
    int[] chosen = chosen();
    int n = chosen.length;
    double[][] normal = new double[2 * n][2 * n];
    double[] right = new double[2 * n];
    double[][] lower = new double[2 * n][2 * n];
    boolean isStale = true;
    for (int round = 0; round < ROUNDS; round++) {
      leave(window, chosen);
      if (n == 0) {
        return;
      }
      gradient(chosen, right, noiseUv);
      if (isStale) {
        overlaps(chosen, normal, noiseUv);
        factorise(normal, lower);
      }
      isStale = false;
      double[] step = solve(lower, right);
      double largest = 0;
      for (int i = 0; i < n; i++) {
        int r = chosen[i];
        double move = Math.max(-LARGEST_STEP, Math.min(LARGEST_STEP, step[2 * i]));
        position[r] += move;
        scale[r] += step[2 * i + 1];
        isStale |=
            Math.abs(move) > STALE_MOVE
                || Math.abs(step[2 * i + 1]) > STALE_CHANGE * Math.abs(scale[r]);
        largest = Math.max(largest, Math.abs(move));
      }
      if (largest < SMALLEST_STEP) {
        break;
      }
    }
    leave(window, chosen);
    if (isStale) {
      overlaps(chosen, normal, noiseUv);
      factorise(normal, lower);
    }
    widen(chosen, normal, lower);
  }

  private int[] chosen() {
    int[] chosen = new int[shapes.length];
    int n = 0;
    for (int r = 0; r < shapes.length; r++) {
      if (active[r]) {
        chosen[n++] = r;
      }
    }
    return Arrays.copyOf(chosen, n);
  }

  private void leave(double[] window, int[] chosen) {
    if (residual.length != window.length) {
      residual = new double[window.length];
    }
    System.arraycopy(window, 0, residual, 0, window.length);
    for (int r : chosen) {
      shapes[r].place(position[r], value[r]);
      slope[r] = shapes[r].slopeAt(position[r]);
      first[r] = shapes[r].firstIndex(position[r]);
      takeOut(value[r], first[r], scale[r]);
    }
  }

  private void takeOut(double[] v, int first, double scale) {
    double[] left = residual;
    int to = Math.min(v.length, left.length - first);
    for (int k = Math.max(0, -first); k < to; k++) {
      left[first + k] -= scale * v[k];
    }
  }

  /**
   * Right side of the normal equations; unknown 2i is the move of shape i, unknown 2i + 1 the
   * change of its size.
   */
  private void gradient(int[] chosen, double[] right, double noiseUv) {
    double prior = prior(noiseUv);
    for (int i = 0; i < chosen.length; i++) {
      int r = chosen[i];
      right[2 * i] = -scale[r] * Projections.at(residual, first[r], slope[r]);
      right[2 * i + 1] =
          Projections.at(residual, first[r], value[r]) + prior * (usual[r] - scale[r]);
    }
  }

  /** Left side of the normal equations, which changes little while shapes move little. */
  private void overlaps(int[] chosen, double[][] normal, double noiseUv) {
    for (int i = 0; i < chosen.length; i++) {
      int r = chosen[i];
      for (int j = 0; j <= i; j++) {
        int s = chosen[j];
        double a = scale[r];
        double b = scale[s];
        double[] overlap = overlap(r, s);
        normal[2 * i][2 * j] = a * b * overlap[0];
        normal[2 * i + 1][2 * j + 1] = overlap[1];
        normal[2 * i + 1][2 * j] = -b * overlap[2];
        normal[2 * i][2 * j + 1] = -a * overlap[3];
        normal[2 * j][2 * i] = normal[2 * i][2 * j];
        normal[2 * j + 1][2 * i + 1] = normal[2 * i + 1][2 * j + 1];
        normal[2 * j][2 * i + 1] = normal[2 * i + 1][2 * j];
        normal[2 * j + 1][2 * i] = normal[2 * i][2 * j + 1];
      }
      normal[2 * i + 1][2 * i + 1] += prior(noiseUv);
      normal[2 * i][2 * i] += 1e-9 * shapes[r].slopeEnergy() + 1e-12;
    }
  }

  private double prior(double noiseUv) {
    return noiseUv * noiseUv / (sizeSpread * sizeSpread);
  }

  private void widen(int[] chosen, double[][] normal, double[][] lower) {
    for (int i = 0; i < chosen.length; i++) {
      double[] unit = new double[2 * chosen.length];
      unit[2 * i] = 1;
      double inverse = solve(lower, unit)[2 * i];
      widening[chosen[i]] = Math.sqrt(Math.max(1, inverse * normal[2 * i][2 * i]));
    }
  }

  /** Overlaps of slopes, of values, of a value with a slope and of a slope with a value. */
  private double[] overlap(int r, int s) {
    double[] rise = slope[r];
    double[] otherRise = slope[s];
    double[] height = value[r];
    double[] otherHeight = value[s];
    int shift = first[r] - first[s];
    int from = Math.max(0, -shift);
    int to = Math.min(height.length, otherHeight.length - shift);
    double slopes = 0;
    double values = 0;
    double valueSlope = 0;
    double slopeValue = 0;
    for (int k = from; k < to; k++) {
      slopes += rise[k] * otherRise[k + shift];
      values += height[k] * otherHeight[k + shift];
      valueSlope += height[k] * otherRise[k + shift];
      slopeValue += rise[k] * otherHeight[k + shift];
    }
    return new double[] {slopes, values, valueSlope, slopeValue};
  }

  /** Cholesky factor of a small positive definite matrix, which is kept. */
  private static void factorise(double[][] matrix, double[][] lower) {
    for (int i = 0; i < matrix.length; i++) {
      for (int j = 0; j <= i; j++) {
        double sum = matrix[i][j];
        for (int k = 0; k < j; k++) {
          sum -= lower[i][k] * lower[j][k];
        }
        if (i == j) {
          lower[i][i] = Math.sqrt(Math.max(sum, 1e-12 * Math.abs(matrix[i][i]) + 1e-300));
        } else {
          lower[i][j] = sum / lower[j][j];
        }
      }
    }
  }

  /** Solution by a Cholesky factor; the right side is kept. */
  private static double[] solve(double[][] lower, double[] right) {
    int n = right.length;
    double[] x = right.clone();
    for (int i = 0; i < n; i++) {
      for (int k = 0; k < i; k++) {
        x[i] -= lower[i][k] * x[k];
      }
      x[i] /= lower[i][i];
    }
    for (int i = n - 1; i >= 0; i--) {
      for (int k = i + 1; k < n; k++) {
        x[i] -= lower[k][i] * x[k];
      }
      x[i] /= lower[i][i];
    }
    return x;
  }
}
