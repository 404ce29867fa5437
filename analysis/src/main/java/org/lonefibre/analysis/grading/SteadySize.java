package org.lonefibre.analysis.grading;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * Sweeps without what is slow in their size. A fibre grows and shrinks with the distance of the
 * needle, all of its shape alike: no second fibre does that, and a needle that is moved may halve
 * it. What changes from sweep to sweep stays, and so does the noise, which a sweep made larger
 * would have more of.
 *
 * <ul>
 *   <li>Slow is the mean of the middle half of the sizes of 21 sweeps: where sweeps are of two
 *       sizes by turns, a median would be now the one, now the other.
 *   <li>Thread rule: no state.
 * </ul>
 */
final class SteadySize {

  private static final int NEIGHBOURS = 10;

  private SteadySize() {}

  /** Sweeps in the order of time, aligned; the argument is left as it was. */
  static List<double[]> of(List<double[]> rows) {
    double[] shape = AlignedSweeps.median(rows);
    double energy = Math.max(Wave.dot(shape, shape), 1e-12);
    double[] slow = slow(rows.stream().mapToDouble(row -> Wave.dot(row, shape) / energy).toArray());
    double usual = Arrays.stream(slow).average().orElse(1);
    List<double[]> steady = new ArrayList<>();
    for (int i = 0; i < slow.length; i++) {
      double[] row = rows.get(i).clone();
      for (int k = 0; k < row.length; k++) {
        row[k] -= (slow[i] - usual) * shape[k];
      }
      steady.add(row);
    }
    return steady;
  }

  private static double[] slow(double[] sizes) {
    double[] slow = new double[sizes.length];
    for (int i = 0; i < sizes.length; i++) {
      double[] near =
          Arrays.copyOfRange(
              sizes, Math.max(0, i - NEIGHBOURS), Math.min(sizes.length, i + NEIGHBOURS + 1));
      Arrays.sort(near);
      int cut = near.length / 4;
      slow[i] = Arrays.stream(near, cut, near.length - cut).average().orElse(1);
    }
    return slow;
  }
}
