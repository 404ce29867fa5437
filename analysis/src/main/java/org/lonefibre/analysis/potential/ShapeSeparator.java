package org.lonefibre.analysis.potential;

import org.lonefibre.analysis.conditioning.ConditionedSignal;

/**
 * Separates shapes that overlap: the shapes that, placed at their arrivals, explain all discharges
 * best ({@link ShapeSystem}). What the variation of the intervals cannot separate is decided by
 * what is known of potentials of one fibre ({@link ShapePrior}).
 */
final class ShapeSeparator {

  private static final int MOST_DISCHARGES = 200;
  private static final double LEAST_OWN_US = 150;
  private static final double OWN_SHARE = 0.4;

  private final PotentialSettings settings;
  private final ConditionedSignal signal;
  private final TrackedSite site;
  private final WindowReader windows;
  private final ShapePrior prior;

  ShapeSeparator(
      PotentialSettings settings,
      ConditionedSignal signal,
      TrackedSite site,
      WindowReader windows) {
    this.settings = settings;
    this.signal = signal;
    this.site = site;
    this.windows = windows;
    this.prior = new ShapePrior(signal);
  }

  /** Whether potentials of a unit lie so near that their shapes overlap. */
  boolean isNeeded(UnitTrack unit) {
    double near = signal.timeBase().lengthSamples(settings.shapeAfterUs() + 200);
    for (int p = 0; p < unit.potentials; p++) {
      for (int q = 0; q < p; q++) {
        if (Math.abs(unit.lag[p] - unit.lag[q]) < near) {
          return true;
        }
      }
    }
    return false;
  }

  /** Only every so many discharges are looked at: in a long recording a part of them is enough. */
  int every(UnitTrack unit) {
    return Math.max(1, unit.discharges / MOST_DISCHARGES);
  }

  /** What is known of the shapes of a unit as they are now. */
  ShapePrior.Weight[] weights(UnitTrack unit) {
    ShapePrior.Weight[] weights = new ShapePrior.Weight[unit.potentials];
    for (int p = 0; p < weights.length; p++) {
      weights[p] = prior.weight(unit.shape[p], ownSamples(unit, p));
    }
    return weights;
  }

  /** How far from the arrival a shape is its own: a part of the way to the nearest neighbour. */
  private double ownSamples(UnitTrack unit, int potential) {
    double nearest = Double.POSITIVE_INFINITY;
    for (int q = 0; q < unit.potentials; q++) {
      if (q != potential) {
        nearest = Math.min(nearest, Math.abs(unit.lag[q] - unit.lag[potential]));
      }
    }
    return Math.max(signal.timeBase().lengthSamples(LEAST_OWN_US), OWN_SHARE * nearest);
  }

  /** The discharges of a unit by which its shapes can be separated, as they are now. */
  OverlappingSweeps sweeps(UnitTrack unit, int unitIndex) {
    return OverlappingSweeps.of(unit, unitIndex, every(unit), site, windows);
  }
}
