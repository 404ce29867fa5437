package org.lonefibre.model.leadfield;

import java.util.stream.IntStream;

/**
 * What every triangle does at the middle of every other: the single-layer matrix S and the
 * double-layer matrix D of a closed surface.
 *
 * <ul>
 *   <li>Each row of D sums to -1/2 if, and only if, the surface is closed; the largest deviation is
 *       kept as the error of the rows.
 *   <li>Entries are kept in single precision, a thousandth of what the mesh errs.
 *   <li>Thread rule: immutable after construction.
 * </ul>
 */
final class Matrices {

  private final int count;
  private final float[][] single;
  private final float[][] twice;
  private final double rowSumError;

  Matrices(Panels panels) {
    count = panels.count();
    single = new float[count][];
    twice = new float[count][];
    double[] errors = new double[count];
    IntStream.range(0, count).parallel().forEach(i -> errors[i] = fill(panels, i));
    double worst = 0;
    for (double error : errors) {
      worst = Math.max(worst, error);
    }
    rowSumError = worst;
  }

  private double fill(Panels panels, int i) {
    float[] s = new float[count];
    float[] d = new float[count];
    double[] seen = new double[2];
    double sum = 0;
    double x = panels.middle(i, 0);
    double y = panels.middle(i, 1);
    double z = panels.middle(i, 2);
    for (int j = 0; j < count; j++) {
      panels.see(j, x, y, z, seen);
      s[j] = (float) seen[0];
      d[j] = (float) seen[1];
      sum += seen[1];
    }
    single[i] = s;
    twice[i] = d;
    return Math.abs(sum + 0.5);
  }

  int count() {
    return count;
  }

  float[] singleRow(int i) {
    return single[i];
  }

  float[] doubleRow(int i) {
    return twice[i];
  }

  /** Largest deviation of a row sum of D from -1/2. */
  double rowSumError() {
    return rowSumError;
  }
}
