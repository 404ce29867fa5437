package org.lonefibre.analysis.potential;

import org.lonefibre.analysis.conditioning.ConditionedSignal;

/**
 * Gives a lone spike its right name: where only one potential of a unit was seen in a discharge, it
 * may be another of the unit's potentials than the one it was taken for, and then the wrong ones
 * would be called blocked. The potential whose shape and size explain the spike best is taken.
 */
final class LoneSpikes {

  private static final double LARGEST_CHANGE = 0.3;
  private static final double SURELY_BETTER = 25;

  private final TrackedSite site;
  private final WindowReader windows;
  private final double noiseUv;

  LoneSpikes(ConditionedSignal signal, TrackedSite site, WindowReader windows) {
    this.site = site;
    this.windows = windows;
    this.noiseUv = signal.noiseUv();
  }

  /** Renames in place; whether anything was changed. */
  boolean rename(UnitTrack unit, int unitIndex) {
    double[][] usual = SweepFitter.usualScales(unit);
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
    for (int p = 0; p < unit.potentials; p++) {
      double left = left(unit.shape[p], usual[p], window, unit.arrival[d][only] - start);
      double handicap = p == only ? 0 : SURELY_BETTER * noiseUv * noiseUv;
      if (left + handicap < least) {
        least = left + handicap;
        best = p;
      }
    }
    return best;
  }

  /** Energy that is left when a shape, of about its usual size, is placed near a position. */
  private double left(PotentialShape shape, double usual, double[] window, double position) {
    JointFit fit = new JointFit(new PotentialShape[] {shape});
    fit.start(0, position, usual);
    fit.fit(window, noiseUv);
    double scale =
        Math.max(
            (1 - LARGEST_CHANGE) * usual,
            Math.min((1 + LARGEST_CHANGE) * usual, fit.scaleRatio(0)));
    double[] left = window.clone();
    shape.addTo(left, fit.positionSamples(0), -scale);
    double sum = 0;
    for (double value : left) {
      sum += value * value;
    }
    return sum;
  }
}
