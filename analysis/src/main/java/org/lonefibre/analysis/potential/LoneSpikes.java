package org.lonefibre.analysis.potential;

import org.lonefibre.analysis.conditioning.ConditionedSignal;

/**
 * Gives a lone spike its right name: where only one potential of a unit was seen in a discharge, it
 * may be another of the unit's potentials than the one it was taken for, and then the wrong ones
 * would be called blocked. The potential is taken whose shape and size explain the spike best and
 * whose partners are missing for a reason.
 */
final class LoneSpikes {

  private static final double SURELY_BETTER = 5;
  private static final double HIDDEN_SHARE = 0.6;
  private static final double NEAR_US = 500;

  private final TrackedSite site;
  private final WindowReader windows;
  private final double noiseUv;
  private final double near;

  LoneSpikes(ConditionedSignal signal, TrackedSite site, WindowReader windows) {
    this.site = site;
    this.windows = windows;
    this.noiseUv = signal.noiseUv();
    this.near = signal.timeBase().lengthSamples(NEAR_US);
  }

  /** Renames in place; whether anything was changed. */
  boolean rename(UnitTrack unit, int unitIndex) {
    double[][] usual = UsualSizes.of(unit);
    boolean changed = false;
    for (int d = 0; d < unit.discharges; d++) {
      int only = only(unit, d);
      if (only >= 0) {
        int better = better(unit, unitIndex, d, only, usual[d]);
        if (better != only) {
          double at = unit.arrival[d][only];
          unit.reference[d] = at - unit.lag[better];
          for (int p = 0; p < unit.potentials; p++) {
            unit.presence[d][p] = p == better ? Presence.PRESENT : Presence.UNCERTAIN;
            unit.arrival[d][p] = unit.reference[d] + unit.lag[p];
            unit.scale[d][p] = usual[d][p];
          }
          changed = true;
        }
      }
    }
    return changed;
  }

  /** The only potential that is present in a discharge, or -1. */
  private static int only(UnitTrack unit, int d) {
    int only = -1;
    for (int p = 0; p < unit.potentials && unit.potentials > 1; p++) {
      if (unit.isPresent(d, p)) {
        if (only >= 0) {
          return -1;
        }
        only = p;
      }
    }
    return only;
  }

  private int better(UnitTrack unit, int unitIndex, int d, int only, double[] usual) {
    PotentialShape shape = unit.shape[only];
    int margin = shape.length();
    long start = (long) Math.floor(unit.arrival[d][only]) - margin;
    double[] window = new double[2 * margin];
    windows.read(unit.segment[d], start, window);
    site.takeOut(window, start, unitIndex);
    int best = only;
    double least = Double.POSITIVE_INFINITY;
    double position = unit.arrival[d][only] - start;
    for (int p = 0; p < unit.potentials; p++) {
      double cost =
          SpikeMisfit.of(unit.shape[p], usual[p], window, position, noiseUv)
              + missing(unit, unitIndex, d, p, unit.arrival[d][only])
              + (p == only ? 0 : SURELY_BETTER);
      if (cost < least) {
        least = cost;
        best = p;
      }
    }
    return best;
  }

  /** How unlikely it is that all others are missing if the spike is this potential. */
  private double missing(UnitTrack unit, int unitIndex, int d, int spike, double position) {
    double sum = 0;
    for (int p = 0; p < unit.potentials; p++) {
      double expected = position + unit.lag[p] - unit.lag[spike];
      double size = unit.shape[p].peakToPeakUv();
      boolean hidden =
          site.largestForeignUv(expected - near, expected + near, unitIndex) > HIDDEN_SHARE * size;
      if (p != spike && !hidden) {
        int present = unit.presentCount(p);
        double share = (unit.discharges - present + 0.5) / (unit.discharges + 1.0);
        sum -= 2 * Math.log(Math.max(share, 1e-3));
      }
    }
    return sum;
  }
}
