package org.lonefibre.model.electrode;

/** Places from 0 to 1 that crowd where current crowds. */
final class Grading {

  private Grading() {}

  /** Crowds at 1, quadratically: a disc's current grows like one over the root of the distance. */
  static double[] towardsEnd(int steps) {
    double[] places = new double[steps + 1];
    for (int i = 0; i <= steps; i++) {
      places[i] = Math.sin(0.5 * Math.PI * i / steps);
    }
    places[steps] = 1;
    return places;
  }

  /** Crowds at 0. */
  static double[] fromStart(int steps) {
    double[] places = new double[steps + 1];
    for (int i = 0; i <= steps; i++) {
      places[i] = 1 - Math.cos(0.5 * Math.PI * i / steps);
    }
    places[steps] = 1;
    return places;
  }

  /** Crowds at both. */
  static double[] bothEnds(int steps) {
    double[] places = new double[steps + 1];
    for (int i = 0; i <= steps; i++) {
      places[i] = 0.5 * (1 - Math.cos(Math.PI * i / steps));
    }
    places[steps] = 1;
    return places;
  }

  /**
   * How much larger a circle's corners must lie for the polygon to have the circle's area: else a
   * needle is too thin by what its facets cut off.
   */
  static double ofEqualArea(int corners) {
    double step = 2 * Math.PI / corners;
    return Math.sqrt(step / Math.sin(step));
  }

  /** Stretches places so that their steps grow by a ratio from one end to the other. */
  static double[] stretched(double[] places, double ratio) {
    double[] stretched = new double[places.length];
    double log = Math.log(ratio);
    for (int i = 0; i < places.length; i++) {
      stretched[i] =
          Math.abs(log) < 1e-6 ? places[i] : Math.expm1(log * places[i]) / Math.expm1(log);
    }
    stretched[places.length - 1] = 1;
    return stretched;
  }
}
