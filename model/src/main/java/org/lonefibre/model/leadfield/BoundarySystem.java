package org.lonefibre.model.leadfield;

import java.util.Arrays;

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
 *       contacts of the same magnitude, beginning with all that {@link BoundaryMatrix} has tried at
 *       other contacts if it is complex; a real system is solved afresh, the same to the last bit.
 *   <li>Thread rule: one call at a time; works on all processors.
 * </ul>
 */
final class BoundarySystem {

  private static final double TOLERANCE = 1e-8;
  private static final int MOST_REFINEMENTS = 3;

  private final BoundaryMatrix matrix;
  private final Matrices matrices;
  private final Vectors kind;
  private final int count;
  private final int parts;
  private final double[] core;
  private final double[] shaft;
  private final double[] real;
  private final double[] imaginary;
  private final boolean withContacts;
  private final BlockFactors factors;
  private final StepSolver steps;

  /**
   * @param matrix the matrix apart from the contacts; complex if one of them has a phase
   * @param coreContact contact of the core
   * @param shaftContact contact of the shaft
   */
  BoundarySystem(BoundaryMatrix matrix, Contact coreContact, Contact shaftContact) {
    this.matrix = matrix;
    matrices = matrix.matrices();
    kind = matrix.kind();
    count = matrix.count();
    parts = kind.parts();
    core = new double[] {coreContact.realOhmM2(), coreContact.reactiveOhmM2()};
    shaft = new double[] {shaftContact.realOhmM2(), shaftContact.reactiveOhmM2()};
    withContacts = Complex.magnitude(core) + Complex.magnitude(shaft) > 0;
    real = new double[count];
    imaginary = new double[count];
    lay(matrix.core(), core);
    lay(matrix.shaft(), shaft);
    factors = new BlockFactors(count, this::magnitude);
    steps = new StepSolver(kind, this::image, this::precondition);
    for (BoundaryMatrix.Tried before : matrix.tried()) {
      steps.offer(before.direction(), before.image(kind, core, shaft));
    }
  }

  private void lay(int[] triangles, double[] contact) {
    for (int j : triangles) {
      real[j] = contact[0] * matrix.lengthMm(j);
      imaginary[j] = contact[1] * matrix.lengthMm(j);
    }
  }

  /** The entry that a real contact of the same magnitude would have. */
  private double magnitude(int i, int j) {
    double zeta = matrix.isMetal(j) ? Math.hypot(real[j], imaginary[j]) : 0;
    return zeta == 0
        ? matrix.entry(i, j)
        : matrix.entry(i, j) + zeta * ((i == j ? 0.5 : 0) - matrices.doubleRow(i)[j]);
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
   * Solves, and holds the solution to the equation itself, since directions from other contacts are
   * not at right angles.
   *
   * @throws LeadFieldException if the steps do not arrive
   */
  double[] solve(double[] right) {
    double[] solution = steps.solve(right, TOLERANCE);
    double allowed = 2 * TOLERANCE * kind.norm(right);
    for (int more = 0; ; more++) {
      double[] residual = right.clone();
      kind.add(residual, -1, 0, matrix.of(solution, withContacts).image(kind, core, shaft));
      double left = kind.norm(residual);
      if (left <= allowed) {
        return solution;
      }
      if (more == MOST_REFINEMENTS) {
        throw new LeadFieldException(
            "the boundary equation is solved to " + left / kind.norm(right) + " only");
      }
      kind.add(solution, 1, 0, steps.solve(residual, 0.5 * allowed / left));
    }
  }

  private double[] image(double[] direction) {
    return matrix.keep(direction, withContacts).image(kind, core, shaft);
  }

  private double[] precondition(double[] vector) {
    double[] solved = vector.clone();
    for (int part = 0; part < parts; part++) {
      factors.solve(solved, part * count);
    }
    return solved;
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
      if (!matrix.isMetal(j)) {
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
