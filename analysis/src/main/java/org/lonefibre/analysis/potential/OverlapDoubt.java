package org.lonefibre.analysis.potential;

/**
 * How far the variation of a potential's arrivals may be out of scale because another potential of
 * the unit overlaps it. A part of one that is taken for the tail of the other makes it seem to move
 * more than it does, a part of the tail that is taken for it less; the recording decides between
 * them by terms of second order only.
 *
 * <ul>
 *   <li>The size of the doubt is what was found in simulated pairs, of shapes like those of the
 *       family and of others: see {@code docs/decisions/0044-whole-tails.md}.
 *   <li>Thread rule: immutable.
 * </ul>
 */
final class OverlapDoubt {

  private static final double TIMED_US = 150;

  /** Up to this distance the error of a near neighbour counts whole, up to the other ever less. */
  private static final double NEAR_US = 720;

  private static final double FAR_US = 900;
  private static final double NEAR_ERROR = 0.025;

  /** Error for each unit of swing beneath, over the own size. */
  private static final double BENEATH_ERROR = 0.05;

  /** A neighbour this much smaller is not taken for a part of a potential. */
  private static final double LEAST_RATIO = 0.5;

  private static final double LEAST_SHARE = 0.01;

  private final double samplesPerUs;

  OverlapDoubt(double samplesPerUs) {
    this.samplesPerUs = samplesPerUs;
  }

  /**
   * Standard error of the scale of a potential's arrivals, as a share; 0 where nothing overlaps.
   */
  double scaleErrorRatio(UnitTrack unit, int potential) {
    double own = Math.max(1e-9, unit.shape[potential].peakToPeakUv());
    double most = 0;
    for (int q = 0; q < unit.potentials; q++) {
      if (q != potential && unit.shape[q].peakToPeakUv() > LEAST_RATIO * own) {
        double distance = unit.lag[potential] - unit.lag[q];
        double far = FAR_US - Math.abs(distance) / samplesPerUs;
        double near = NEAR_ERROR * Math.max(0, Math.min(1, far / (FAR_US - NEAR_US)));
        double beneath = BENEATH_ERROR * swing(unit.shape[q], distance) / own;
        most = Math.max(most, Math.max(near, near > 0 ? beneath : 0));
      }
    }
    return most < LEAST_SHARE ? 0 : most;
  }

  /** Greatest less least value of a shape around a distance from its arrival. */
  private double swing(PotentialShape shape, double distance) {
    double[] samples = shape.samples();
    double reach = TIMED_US * samplesPerUs;
    int from = (int) Math.max(0, shape.origin() + distance - reach);
    int to = (int) Math.min(samples.length, shape.origin() + distance + reach + 1);
    double low = 0;
    double high = 0;
    for (int k = from; k < to; k++) {
      low = k == from ? samples[k] : Math.min(low, samples[k]);
      high = k == from ? samples[k] : Math.max(high, samples[k]);
    }
    return high - low;
  }
}
