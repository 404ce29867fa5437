package org.lonefibre.validation.campaign;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/**
 * Whether what is said with a probability comes true as often: said and real by fifths of the
 * probability.
 *
 * <ul>
 *   <li>Thread rule: one thread.
 * </ul>
 */
final class Reliability {

  private static final int CLASSES = 5;
  private static final double MOST_BESIDE = 0.05;

  private final int[] counts = new int[CLASSES];
  private final double[] weights = new double[CLASSES];
  private final double[] said = new double[CLASSES];
  private final double[] real = new double[CLASSES];

  /**
   * Counts what was said of one potential.
   *
   * @param single probability of one fibre
   * @param weight how much it counts
   * @param isOne whether one fibre made it
   */
  void count(double single, double weight, boolean isOne) {
    int k = (int) Math.min(CLASSES - 1, single * CLASSES);
    counts[k]++;
    weights[k] += weight;
    said[k] += weight * single;
    real[k] += isOne ? weight : 0;
  }

  /** A line for each class: its bounds, how many, said in the mean, real share. */
  List<GoalRow> rows() {
    List<GoalRow> rows = new ArrayList<>();
    for (int k = 0; k < CLASSES; k++) {
      double whole = Math.max(1e-12, weights[k]);
      double mean = said[k] / whole;
      double share = real[k] / whole;
      rows.add(
          GoalRow.within(
              List.of(
                  String.format(
                      Locale.ROOT, "%.1f to %.1f", (double) k / CLASSES, (k + 1.0) / CLASSES),
                  Integer.toString(counts[k]),
                  String.format(Locale.ROOT, "%.3f", mean),
                  String.format(Locale.ROOT, "%.3f", share)),
              share,
              mean - MOST_BESIDE,
              mean + MOST_BESIDE,
              "within 0.05"));
    }
    return rows;
  }
}
