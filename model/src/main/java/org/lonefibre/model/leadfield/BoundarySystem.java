package org.lonefibre.model.leadfield;

import java.util.Arrays;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;

/**
 * The boundary equation u / 2 - D u + S q = source, for unknown u on insulation and unknown q on
 * metal, where u = U + zeta q.
 *
 * <ul>
 *   <li>q is the slope of u along the normal into the tissue, in the stretched medium; current
 *       density into the tissue is -sb q. zeta = z sb a'/a is the contact impedance as a length;
 *       its imaginary part belongs to a capacitance.
 *   <li>With complex contacts a vector holds N real parts, then N imaginary parts.
 *   <li>Solved in steps by {@link StepSolver}, with {@link BlockFactors} of the matrix for real
 *       contacts of the same magnitude.
 *   <li>Thread rule: one call at a time; works on all processors.
 * </ul>
 */
final class BoundarySystem {

  private static final double TOLERANCE = 1e-6;

  private final Matrices matrices;
  private final int count;
  private final boolean[] metal;
  private final double[] real;
  private final double[] imaginary;
  private final int parts;
  private final float[][] rows;
  private final BlockFactors factors;

  /**
   * @param matrices of the surface
   * @param metal which triangles are metal
   * @param real real part of zeta, in mm
   * @param imaginary its imaginary part; null if real
   */
  BoundarySystem(Matrices matrices, boolean[] metal, double[] real, double @Nullable [] imaginary) {
    this.matrices = matrices;
    this.count = matrices.count();
    this.metal = metal;
    this.real = real;
    this.imaginary = imaginary == null ? new double[count] : imaginary;
    this.parts = imaginary == null ? 1 : 2;
    rows = new float[count][];
    IntStream.range(0, count).parallel().forEach(i -> rows[i] = row(i));
    factors = new BlockFactors(count, this::magnitude);
  }

  private float[] row(int i) {
    float[] s = matrices.singleRow(i);
    float[] d = matrices.doubleRow(i);
    float[] row = new float[count];
    for (int j = 0; j < count; j++) {
      row[j] = metal[j] ? (float) (s[j] - real[j] * d[j]) : -d[j];
    }
    row[i] += (float) (metal[i] ? 0.5 * real[i] : 0.5);
    return row;
  }

  /** The entry that a real contact of the same magnitude would have. */
  private double magnitude(int i, int j) {
    double more = metal[j] ? Math.hypot(real[j], imaginary[j]) - real[j] : 0;
    return more == 0
        ? rows[i][j]
        : rows[i][j] + more * ((i == j ? 0.5 : 0) - matrices.doubleRow(i)[j]);
  }

  /** The vector whose solution belongs to one volt on some triangles. */
  double[] forPotential(boolean[] driven) {
    double[] right = new double[parts * count];
    for (int i = 0; i < count; i++) {
      float[] d = matrices.doubleRow(i);
      double sum = driven[i] ? -0.5 : 0;
      for (int j = 0; j < count; j++) {
        if (driven[j]) {
          sum += d[j];
        }
      }
      right[i] = sum;
    }
    return right;
  }

  /** The vector whose solution belongs to given slopes q on insulation. */
  double[] forSlopes(double[] slopes) {
    double[] right = new double[parts * count];
    for (int i = 0; i < count; i++) {
      float[] s = matrices.singleRow(i);
      double sum = 0;
      for (int j = 0; j < count; j++) {
        sum -= s[j] * slopes[j];
      }
      right[i] = sum;
    }
    return right;
  }

  /** Number of unknowns, real and imaginary. */
  int size() {
    return parts * count;
  }

  /**
   * Solves.
   *
   * @throws LeadFieldException if the steps do not arrive
   */
  double[] solve(double[] right) {
    return StepSolver.solve(this::multiply, this::precondition, right, TOLERANCE);
  }

  private void precondition(double[] vector) {
    for (int part = 0; part < parts; part++) {
      factors.solve(vector, part * count);
    }
  }

  private void multiply(double[] vector, double[] product) {
    if (parts == 1) {
      IntStream.range(0, count)
          .parallel()
          .forEach(i -> product[i] = dot(rows[i], vector, 0, count));
      return;
    }
    double[] crossed = new double[2 * count];
    for (int j = 0; j < count; j++) {
      crossed[j] = metal[j] ? -imaginary[j] * vector[count + j] : 0;
      crossed[count + j] = metal[j] ? imaginary[j] * vector[j] : 0;
    }
    IntStream.range(0, count)
        .parallel()
        .forEach(
            i -> {
              float[] d = matrices.doubleRow(i);
              for (int part = 0; part < 2; part++) {
                int from = part * count;
                product[from + i] =
                    dot(rows[i], vector, from, count)
                        - dot(d, crossed, from, count)
                        + 0.5 * crossed[from + i];
              }
            });
  }

  private static double dot(float[] row, double[] vector, int from, int count) {
    double a = 0;
    double b = 0;
    double c = 0;
    double e = 0;
    int j = 0;
    for (; j + 3 < count; j += 4) {
      a += row[j] * vector[from + j];
      b += row[j + 1] * vector[from + j + 1];
      c += row[j + 2] * vector[from + j + 2];
      e += row[j + 3] * vector[from + j + 3];
    }
    for (; j < count; j++) {
      a += row[j] * vector[from + j];
    }
    return a + b + c + e;
  }

  /**
   * Potentials and slopes of a solution.
   *
   * @param unknowns the solution
   * @param volts potential of the metal of each triangle
   * @param slopes given slopes on insulation, 0 elsewhere
   */
  Layers layers(double[] unknowns, double[] volts, double[] slopes) {
    double[] u = new double[parts * count];
    double[] q = new double[parts * count];
    for (int j = 0; j < count; j++) {
      if (!metal[j]) {
        u[j] = unknowns[j];
        q[j] = slopes[j];
        if (parts == 2) {
          u[count + j] = unknowns[count + j];
        }
      } else if (parts == 1) {
        q[j] = unknowns[j];
        u[j] = volts[j] + real[j] * q[j];
      } else {
        q[j] = unknowns[j];
        q[count + j] = unknowns[count + j];
        u[j] = volts[j] + real[j] * q[j] - imaginary[j] * q[count + j];
        u[count + j] = real[j] * q[count + j] + imaginary[j] * q[j];
      }
    }
    return new Layers(
        Arrays.copyOf(u, count),
        Arrays.copyOf(q, count),
        parts == 2 ? Arrays.copyOfRange(u, count, 2 * count) : null,
        parts == 2 ? Arrays.copyOfRange(q, count, 2 * count) : null);
  }
}
