package org.lonefibre.analysis.potential;

/**
 * Shapes that overlap and the arrivals they give, improved in turn until they agree. Taken in turn
 * alone, a potential that lies in the tail of another comes to its full movement slowly: each turn
 * gives back a part of what the tail has taken. So each turn goes on from where the turns before it
 * point ({@link ShapeExtrapolation}).
 *
 * <ul>
 *   <li>Thread rule: keeps nothing between calls.
 * </ul>
 */
final class OverlapSettling {

  /** What is known of shapes before is made anew after so many turns. */
  private static final int KNOWN_FOR = 2;

  /** Settled once what may still come is this share of what noise leaves unknown of the shapes. */
  private static final double SETTLED = 0.2;

  /** A shape whose peaks lie nearer, in deviations of the noise, is that of no potential. */
  private static final double FADED = 3;

  private final ShapeSeparator separator;
  private final SweepFitter fitter;
  private final double noiseUv;

  OverlapSettling(ShapeSeparator separator, SweepFitter fitter, double noiseUv) {
    this.separator = separator;
    this.fitter = fitter;
    this.noiseUv = noiseUv;
  }

  /** At most so many turns; at last all discharges are placed. */
  void settle(UnitTrack unit, int u, int turns) {
    OverlappingSweeps sweeps = separator.sweeps(unit, u);
    int every = separator.every(unit);
    ShapePrior.Weight[] weights = separator.weights(unit);
    ShapeExtrapolation extrapolation = new ShapeExtrapolation();
    boolean settled = false;
    for (int turn = 0; turn < turns && !settled; turn++) {
      if (turn > 0 && turn % KNOWN_FOR == 0) {
        weights = separator.weights(unit);
      }
      double[][] before = unit.shapeSamples();
      double[][] after = sweeps.separated(unit, weights);
      double[][] end = extrapolation.beyond(before, after);
      settled = turn > 0 && isNear(before, after, unit) && isNear(before, end, unit);
      unit.takeShapes(end);
      settled |= hasFaded(unit);
      fitter.fit(unit, u, every);
      unit.normalise();
    }
    unit.takeShapes(sweeps.separated(unit, weights));
    fitter.fit(unit, u);
    unit.normalise();
  }

  /**
   * Whether a potential is coming to nothing: further turns would place what is none, and what it
   * takes up in the end is any size of the others.
   */
  private boolean hasFaded(UnitTrack unit) {
    for (int p = 0; p < unit.potentials; p++) {
      if (unit.shape[p].peakToPeakUv() < FADED * noiseUv) {
        return true;
      }
    }
    return false;
  }

  /** Whether little of what noise leaves unknown lies between shapes and others. */
  private boolean isNear(double[][] shapes, double[][] others, UnitTrack unit) {
    double[] way = ShapeExtrapolation.change(shapes, others, shapes);
    double square = 0;
    for (double value : way) {
      square += value * value;
    }
    double known = noiseUv * Math.sqrt((double) way.length / unit.discharges);
    return Math.sqrt(square) < SETTLED * known;
  }
}
