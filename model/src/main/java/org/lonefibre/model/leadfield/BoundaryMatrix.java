package org.lonefibre.model.leadfield;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;

/**
 * The matrix of the boundary equation, apart from the contacts: for unknown potential on insulation
 * and unknown slope on metal it is A + z_core B_core + z_shaft B_shaft.
 *
 * <ul>
 *   <li>A holds -D on insulation, S on metal and half of the diagonal on insulation; B_core and
 *       B_shaft hold length (I / 2 - D) on the metal of each.
 *   <li>What the three make of a direction is kept: at another contact the products of all
 *       directions tried before are sums.
 *   <li>Thread rule: one call at a time; works on all processors.
 * </ul>
 */
final class BoundaryMatrix {

  /** A direction and its products with A, B_core and B_shaft. */
  record Tried(double[][] vectors) {

    double[] direction() {
      return vectors[0];
    }

    /** The product at contacts, real and imaginary part each. */
    double[] image(Vectors kind, double[] core, double[] shaft) {
      double[] sum = vectors[1].clone();
      if (core[0] != 0 || core[1] != 0) {
        kind.add(sum, core[0], core[1], vectors[2]);
      }
      if (shaft[0] != 0 || shaft[1] != 0) {
        kind.add(sum, shaft[0], shaft[1], vectors[3]);
      }
      return sum;
    }
  }

  private final Matrices matrices;
  private final Vectors kind;
  private final int count;
  private final boolean[] metal;
  private final double[] lengths;
  private final int[] core;
  private final int[] shaft;
  private final int[] runs;
  private final List<Tried> tried = new ArrayList<>();

  /**
   * @param matrices of the surface
   * @param kind real, or complex for contacts with a phase
   * @param core which triangles are metal of the core
   * @param shaft which triangles are metal of the shaft
   * @param lengths what one ohm m2 of contact is as a length, in mm
   */
  BoundaryMatrix(
      Matrices matrices, Vectors kind, boolean[] core, boolean[] shaft, double[] lengths) {
    this.matrices = matrices;
    this.kind = kind;
    this.count = matrices.count();
    this.lengths = lengths;
    this.core = IntStream.range(0, count).filter(j -> core[j]).toArray();
    this.shaft = IntStream.range(0, count).filter(j -> shaft[j]).toArray();
    metal = new boolean[count];
    for (int j = 0; j < count; j++) {
      metal[j] = core[j] || shaft[j];
    }
    runs = runs(metal);
  }

  /** Where runs of triangles of one kind begin, insulation first, and the end. */
  private static int[] runs(boolean[] metal) {
    int[] starts = new int[metal.length + 2];
    int found = 1;
    boolean now = false;
    for (int j = 0; j < metal.length; j++) {
      if (metal[j] != now) {
        starts[found++] = j;
        now = metal[j];
      }
    }
    starts[found++] = metal.length;
    return Arrays.copyOf(starts, found);
  }

  int count() {
    return count;
  }

  Vectors kind() {
    return kind;
  }

  Matrices matrices() {
    return matrices;
  }

  boolean isMetal(int j) {
    return metal[j];
  }

  /** What one ohm m2 of contact is as a length. */
  double lengthMm(int j) {
    return lengths[j];
  }

  /** An entry of A. */
  double entry(int i, int j) {
    return metal[j] ? matrices.singleRow(i)[j] : (i == j ? 0.5 : 0) - matrices.doubleRow(i)[j];
  }

  /** Metal of the core. */
  int[] core() {
    return core;
  }

  /** Metal of the shaft. */
  int[] shaft() {
    return shaft;
  }

  /** All complex directions tried so far. */
  List<Tried> tried() {
    return tried;
  }

  /** Tries a direction and, if complex, keeps it. */
  Tried keep(double[] direction, boolean withContacts) {
    Tried made = of(direction, withContacts);
    if (kind == Vectors.COMPLEX) {
      tried.add(made);
    }
    return made;
  }

  /** What the three matrices make of a direction; A alone if the metal is ideal. */
  Tried of(double[] direction, boolean withContacts) {
    int size = kind.parts() * count;
    double[] base = new double[size];
    double[] ofCore = new double[withContacts ? size : 0];
    double[] ofShaft = new double[withContacts ? size : 0];
    IntStream.range(0, count)
        .parallel()
        .forEach(
            i -> {
              addBase(i, direction, base);
              if (withContacts) {
                addContact(i, core, direction, ofCore);
                addContact(i, shaft, direction, ofShaft);
              }
            });
    for (int part = 0; withContacts && part < kind.parts(); part++) {
      addHalf(core, part * count, direction, ofCore);
      addHalf(shaft, part * count, direction, ofShaft);
    }
    return new Tried(new double[][] {direction, base, ofCore, ofShaft});
  }

  /** A row of A, run by run. */
  private void addBase(int i, double[] direction, double[] product) {
    double re = metal[i] ? 0 : 0.5 * direction[i];
    double im = metal[i] || kind == Vectors.REAL ? 0 : 0.5 * direction[count + i];
    for (int r = 0; r + 1 < runs.length; r++) {
      boolean ofMetal = r % 2 == 1;
      float[] row = ofMetal ? matrices.singleRow(i) : matrices.doubleRow(i);
      double sign = ofMetal ? 1 : -1;
      if (kind == Vectors.REAL) {
        re += sign * dot(row, direction, runs[r], runs[r + 1]);
      } else {
        double[] both = dotBoth(row, direction, runs[r], runs[r + 1]);
        re += sign * both[0];
        im += sign * both[1];
      }
    }
    product[i] = re;
    if (kind == Vectors.COMPLEX) {
      product[count + i] = im;
    }
  }

  private static double dot(float[] row, double[] vector, int from, int to) {
    double a = 0;
    double b = 0;
    double c = 0;
    double e = 0;
    int j = from;
    for (; j + 3 < to; j += 4) {
      a += row[j] * vector[j];
      b += row[j + 1] * vector[j + 1];
      c += row[j + 2] * vector[j + 2];
      e += row[j + 3] * vector[j + 3];
    }
    for (; j < to; j++) {
      a += row[j] * vector[j];
    }
    return a + b + c + e;
  }

  /** Real and imaginary part in one pass. */
  private double[] dotBoth(float[] row, double[] vector, int from, int to) {
    double re = 0;
    double im = 0;
    double moreRe = 0;
    double moreIm = 0;
    int j = from;
    for (; j + 1 < to; j += 2) {
      double a = row[j];
      double b = row[j + 1];
      re += a * vector[j];
      im += a * vector[count + j];
      moreRe += b * vector[j + 1];
      moreIm += b * vector[count + j + 1];
    }
    for (; j < to; j++) {
      re += row[j] * vector[j];
      im += row[j] * vector[count + j];
    }
    return new double[] {re + moreRe, im + moreIm};
  }

  private void addContact(int i, int[] columns, double[] direction, double[] product) {
    float[] d = matrices.doubleRow(i);
    double re = 0;
    double im = 0;
    boolean complex = kind == Vectors.COMPLEX;
    for (int j : columns) {
      double weight = d[j] * lengths[j];
      re -= weight * direction[j];
      if (complex) {
        im -= weight * direction[count + j];
      }
    }
    product[i] = re;
    if (complex) {
      product[count + i] = im;
    }
  }

  private void addHalf(int[] columns, int from, double[] direction, double[] product) {
    for (int j : columns) {
      product[from + j] += 0.5 * lengths[j] * direction[from + j];
    }
  }
}
