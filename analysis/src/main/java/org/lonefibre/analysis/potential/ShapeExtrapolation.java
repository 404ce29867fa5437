package org.lonefibre.analysis.potential;

import java.util.ArrayList;
import java.util.List;

/**
 * Where shapes that are improved turn by turn will end: the sum of the turns so far, in shares that
 * add up to one, that leaves least still to change (Anderson 1965, Walker and Ni 2011; from
 * memory).
 *
 * <p>A turn that changes more than the one before it is not near an end: what was known is
 * forgotten, or turns that go on steadily, as when a potential is found in fewer discharges each
 * time, would be led back.
 *
 * <p>That a shape grows or comes later as a whole is no change: a fit takes it back in sizes and
 * arrivals, so it goes on for ever.
 *
 * <ul>
 *   <li>Shapes are {@code [potential][sample]}, always as many and as long.
 *   <li>Thread rule: one instance a thread.
 * </ul>
 */
final class ShapeExtrapolation {

  /** Turns before the last that are looked at. */
  private static final int DEPTH = 3;

  /** Turns that point nearly the same way are told apart by this share of their length only. */
  private static final double SMALLEST_SHARE = 1e-4;

  private final List<double[][]> before = new ArrayList<>();
  private final List<double[][]> after = new ArrayList<>();
  private double lastChange = Double.POSITIVE_INFINITY;

  /**
   * Takes note of a turn.
   *
   * @param from the shapes before it
   * @param to the shapes behind it
   * @return the shapes that the turns so far point to; those behind the turn if none before it
   *     counts
   */
  double[][] beyond(double[][] from, double[][] to) {
    double[] change = change(from, to, from);
    double now = Math.sqrt(Projections.dot(change, change));
    int kept = now > lastChange ? 0 : DEPTH;
    lastChange = now;
    while (before.size() > kept) {
      before.remove(0);
      after.remove(0);
    }
    before.add(from);
    after.add(to);
    double[] share = shares(from);
    double[][] end = new double[to.length][];
    for (int p = 0; p < to.length; p++) {
      end[p] = to[p].clone();
      for (int i = 0; i < share.length; i++) {
        double[] one = after.get(i)[p];
        double[] next = after.get(i + 1)[p];
        for (int k = 0; k < end[p].length; k++) {
          end[p][k] -= share[i] * (next[k] - one[k]);
        }
      }
    }
    return end;
  }

  /** How often each difference of turns is taken off the last one. */
  private double[] shares(double[][] shapes) {
    int n = before.size() - 1;
    if (n == 0) {
      return new double[0];
    }
    double[][] change = new double[n + 1][];
    for (int i = 0; i <= n; i++) {
      change[i] = change(before.get(i), after.get(i), shapes);
    }
    double[][] difference = new double[n][];
    double[] length = new double[n];
    for (int i = 0; i < n; i++) {
      difference[i] = change[i + 1].clone();
      for (int k = 0; k < change[i].length; k++) {
        difference[i][k] -= change[i][k];
      }
      length[i] = Math.sqrt(Math.max(1e-300, Projections.dot(difference[i], difference[i])));
    }
    double[][] normal = new double[n][n];
    double[] right = new double[n];
    for (int i = 0; i < n; i++) {
      for (int j = 0; j <= i; j++) {
        normal[i][j] = Projections.dot(difference[i], difference[j]) / (length[i] * length[j]);
      }
      normal[i][i] += SMALLEST_SHARE;
      right[i] = Projections.dot(difference[i], change[n]) / length[i];
    }
    double[] share = new KnownSystem(normal).solve(right);
    for (int i = 0; i < n; i++) {
      share[i] /= length[i];
    }
    return share;
  }

  /**
   * What shapes change, but for their growth and their shift, one behind the other.
   *
   * @param shapes that say what growth and shift are
   */
  static double[] change(double[][] from, double[][] to, double[][] shapes) {
    int length = shapes[0].length;
    double[] all = new double[shapes.length * length];
    for (int p = 0; p < shapes.length; p++) {
      double[] slope = new double[length];
      for (int k = 1; k < length - 1; k++) {
        slope[k] = shapes[p][k + 1] - shapes[p][k - 1];
      }
      double[] change = new double[length];
      for (int k = 0; k < length; k++) {
        change[k] = to[p][k] - from[p][k];
      }
      takeOut(shapes[p], change);
      takeOut(slope, change);
      System.arraycopy(change, 0, all, p * length, length);
    }
    return all;
  }

  private static void takeOut(double[] part, double[] from) {
    double share = Projections.dot(part, from) / Math.max(1e-300, Projections.dot(part, part));
    for (int k = 0; k < part.length; k++) {
      from[k] -= share * part[k];
    }
  }
}
