package org.lonefibre.analysis.grading;

import java.util.Optional;
import java.util.stream.IntStream;
import org.lonefibre.signal.recording.TimeBase;
import org.lonefibre.signal.robust.RobustStatistics;

/**
 * Whether superimposed rising phases are parallel: the time from one level of the steep phase to
 * another is the same in every sweep of one fibre, whatever its jitter. Judged where the phase is
 * at least a third as steep as at its steepest, the other potentials of the unit taken out: riding
 * on the tail of a neighbour, the phases of one fibre fan out too.
 */
final class RisingPhases {

  private static final double[] LEVELS = {0.1, 0.5, 0.9};
  private static final double STEEP = 0.33;
  private static final double NEAR_US = 300;
  private static final int LEAST_SWEEPS = 10;
  private static final double LEAST_FAN_US = 8;
  private static final double LEAST_FAN_NOISE = 2.5;

  private RisingPhases() {}

  /**
   * Phases that are not parallel.
   *
   * @param spreadUs robust spread, from sweep to sweep, of the time between two levels
   * @param noiseUs spread that noise would give
   */
  record Fan(double spreadUs, double noiseUs) {}

  /** The worst of the pairs of levels, if the phases are not parallel. */
  static Optional<Fan> fan(AlignedSweeps sweeps, double noiseUv, TimeBase timeBase) {
    if (sweeps.zeroPhase.size() < LEAST_SWEEPS) {
      return Optional.empty();
    }
    double[] shape = AlignedSweeps.median(sweeps.zeroPhase);
    int near = (int) Math.ceil(timeBase.lengthSamples(NEAR_US));
    int[] phase = steepPart(shape, sweeps.origin, near);
    double[][] crossing = new double[LEVELS.length][];
    double[] error = new double[LEVELS.length];
    for (int l = 0; l < LEVELS.length; l++) {
      double level = shape[phase[0]] + LEVELS[l] * (shape[phase[1]] - shape[phase[0]]);
      double at = nearest(shape, sweeps.origin, phase[0], phase[1] - 1, level);
      if (Double.isNaN(at)) {
        return Optional.empty();
      }
      error[l] = noiseUv / Math.max(1e-9, rise(shape, (int) at));
      crossing[l] =
          sweeps.zeroPhase.stream()
              .mapToDouble(
                  row ->
                      nearest(
                          row,
                          at,
                          Math.max(0, phase[0] - near),
                          Math.min(row.length - 2, phase[1] + near),
                          level))
              .toArray();
    }
    Fan worst = new Fan(0, 1);
    for (int a = 0; a < LEVELS.length; a++) {
      for (int b = a + 1; b < LEVELS.length; b++) {
        double spread = timeBase.durationUs(spread(crossing[a], crossing[b]));
        double noise = timeBase.durationUs(Math.hypot(error[a], error[b]));
        if (spread / noise > worst.spreadUs() / worst.noiseUs()) {
          worst = new Fan(spread, noise);
        }
      }
    }
    return worst.spreadUs() > LEAST_FAN_US && worst.spreadUs() > LEAST_FAN_NOISE * worst.noiseUs()
        ? Optional.of(worst)
        : Optional.empty();
  }

  private static double spread(double[] first, double[] second) {
    double[] apart =
        IntStream.range(0, first.length)
            .mapToDouble(i -> second[i] - first[i])
            .filter(Double::isFinite)
            .toArray();
    return apart.length < LEAST_SWEEPS ? 0 : RobustStatistics.standardDeviation(apart);
  }

  /** First and last sample of the part around the steepest place that is steep. */
  private static int[] steepPart(double[] shape, int origin, int near) {
    int steepest = origin;
    int last = shape.length - 2;
    for (int k = Math.max(0, origin - near); k < Math.min(last, origin + near); k++) {
      if (rise(shape, k) > rise(shape, steepest)) {
        steepest = k;
      }
    }
    double way = shape[steepest + 1] - shape[steepest];
    int from = steepest;
    int to = steepest;
    while (from > 0 && (shape[from] - shape[from - 1]) / way > STEEP) {
      from--;
    }
    while (to < last && (shape[to + 2] - shape[to + 1]) / way > STEEP) {
      to++;
    }
    return new int[] {from, to + 1};
  }

  private static double rise(double[] shape, int k) {
    return Math.abs(shape[k + 1] - shape[k]);
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
