package org.lonefibre.analysis.grading;

import java.util.Arrays;
import java.util.List;
import org.lonefibre.signal.recording.TimeBase;
import org.lonefibre.signal.robust.RobustStatistics;

/**
 * Whether superimposed rising phases are parallel: the time from one level of the steep phase to
 * another is the same in every sweep of one fibre, whatever its jitter. Judged on the causal twin,
 * as it is seen on a screen.
 */
final class RisingPhases {

  private static final double[] LEVELS = {0.15, 0.5, 0.85};
  private static final int LEAST_SWEEPS = 10;

  private RisingPhases() {}

  /**
   * How far the phases are from parallel.
   *
   * @param spreadUs robust spread, from sweep to sweep, of the time between two levels
   * @param noiseUs spread that noise would give
   */
  record Spread(double spreadUs, double noiseUs) {}

  /**
   * The worst of the pairs of levels; none where sweeps are few or a level is not passed.
   *
   * @param before first sample of the steep phase of the median sweep
   * @param after its last
   */
  static Spread measure(
      List<double[]> sweeps, double[] shape, int before, int after, double noiseUv, TimeBase time) {
    Spread worst = new Spread(0, 1);
    if (sweeps.size() < LEAST_SWEEPS || after - before < 3) {
      return worst;
    }
    double[][] crossing = new double[LEVELS.length][];
    double[] error = new double[LEVELS.length];
    for (int l = 0; l < LEVELS.length; l++) {
      double level = shape[before] + LEVELS[l] * (shape[after] - shape[before]);
      double at = crossing(shape, before, after, level);
      if (Double.isNaN(at)) {
        return worst;
      }
      int k = (int) at;
      error[l] = noiseUv / Math.max(1e-9, Math.abs(shape[k + 1] - shape[k]));
      crossing[l] = new double[sweeps.size()];
      int reach = after - before;
      for (int i = 0; i < sweeps.size(); i++) {
        double[] row = sweeps.get(i);
        crossing[l][i] =
            nearest(row, at, Math.max(0, before - reach), Math.min(row.length - 2, after + reach), level);
      }
    }
    for (int a = 0; a < LEVELS.length; a++) {
      for (int b = a + 1; b < LEVELS.length; b++) {
        double[] times = new double[sweeps.size()];
        int n = 0;
        for (int i = 0; i < times.length; i++) {
          double apart = crossing[b][i] - crossing[a][i];
          if (!Double.isNaN(apart)) {
            times[n++] = apart;
          }
        }
        if (n < LEAST_SWEEPS) {
          continue;
        }
        double spread = RobustStatistics.standardDeviation(Arrays.copyOf(times, n));
        double noise = Math.hypot(error[a], error[b]);
        if (spread / noise > worst.spreadUs() / worst.noiseUs()) {
          worst = new Spread(time.durationUs(spread), time.durationUs(noise));
        }
      }
    }
    return worst;
  }

  private static double crossing(double[] row, int from, int to, double level) {
    return nearest(row, (from + to) / 2.0, from, to - 1, level);
  }

  /** Where a row passes a level, nearest to a place; NaN if nowhere. */
  private static double nearest(double[] row, double place, int from, int last, double level) {
    double best = Double.NaN;
    for (int k = from; k <= last; k++) {
      double now = row[k] - level;
      double next = row[k + 1] - level;
      if (now == 0 || now * next < 0) {
        double at = k + (now == next ? 0 : now / (now - next));
        if (Double.isNaN(best) || Math.abs(at - place) < Math.abs(best - place)) {
          best = at;
        }
      }
    }
    return best;
  }
}
