package org.lonefibre.analysis.potential;

import org.lonefibre.signal.recording.TimeBase;

/**
 * Where in a window a potential lies, near the place it should have. What stands out of noise lies
 * where the window is most like it; of what hardly does, noise looks like it elsewhere too, and the
 * place nearer to the usual one is the likelier.
 */
final class PlaceSearch {

  /** Error of the size from which a place may be that of noise. */
  static final double IN_NOISE = 0.14;

  private static final double SPREADS_OF_RANGE = 6;

  /** Places are taken to lie wider than they were seen: what is rare is not drawn in. */
  private static final double SPREADS = 1.5;

  private static final double LEAST_SPREAD_US = 80;
  private static final double LARGEST_SIZE = 1.3;

  /** Logarithm of how much likelier another place must be. */
  private static final double CLEARLY = 3;

  private final double nearest;
  private final double farthest;
  private final double leastSpread;

  PlaceSearch(PotentialSettings settings, TimeBase timeBase) {
    this.nearest = timeBase.lengthSamples(settings.searchUs());
    this.farthest = timeBase.lengthSamples(settings.farthestSearchUs());
    this.leastSpread = timeBase.lengthSamples(LEAST_SPREAD_US);
  }

  /** Farthest from its usual place that any potential is looked for, in samples. */
  double farthest() {
    return farthest;
  }

  /** The same for one potential. */
  double range(UnitTrack unit, int potential) {
    return Math.min(farthest, Math.max(nearest, SPREADS_OF_RANGE * unit.spread[potential]));
  }

  /**
   * The likeliest position in a window.
   *
   * @param expected usual position
   * @param error standard error that noise gives the size, 0 if that is nothing beside it
   */
  double likeliest(UnitTrack unit, int potential, double[] window, double expected, double error) {
    PotentialShape shape = unit.shape[potential];
    double range = range(unit, potential);
    double energy = shape.energy();
    double best = expected;
    double most = Double.NEGATIVE_INFINITY;
    double[] likeness = shape.projectByHalves(window, expected - range, (int) (4 * range) + 1);
    for (int k = 0; k < likeness.length; k++) {
      double off = 0.5 * k - range;
      double value = likeness[k] / energy - handicap(unit, potential, off, error);
      if (value > most) {
        most = value;
        best = expected + off;
      }
    }
    return best;
  }

  /**
   * Whether a potential of about its usual size lies clearly likelier at one place than another.
   */
  boolean isClearlyLikelier(
      UnitTrack unit,
      int potential,
      double[] window,
      double expected,
      double position,
      double other,
      double usual,
      double error) {
    double size = size(unit, potential, window, position);
    double otherSize = size(unit, potential, window, other);
    return size <= LARGEST_SIZE * usual
        && size - handicap(unit, potential, position - expected, error)
            > otherSize
                - handicap(unit, potential, other - expected, error)
                + CLEARLY * error * error;
  }

  private static double size(UnitTrack unit, int potential, double[] window, double position) {
    return unit.shape[potential].project(window, position) / unit.shape[potential].energy();
  }

  /** What a place so far from the usual one must have more of the size to be as likely. */
  private double handicap(UnitTrack unit, int potential, double off, double error) {
    double spreads = off / Math.max(leastSpread, SPREADS * unit.spread[potential]);
    return error * error * spreads * spreads / 2;
  }
}
