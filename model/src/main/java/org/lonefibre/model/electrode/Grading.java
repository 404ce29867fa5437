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

  /**
   * Crowds at 1, more where something narrow lies beyond.
   *
   * @param steps number of steps
   * @param longestRatio how long the last step may be, over the whole
   */
  static double[] towardsEnd(int steps, double longestRatio) {
    double[] places = towardsEnd(steps);
    double last = 1 - places[steps - 1];
    double power = Math.max(1, Math.min(2.5, Math.log(longestRatio) / Math.log(last)));
    for (int i = 1; i < steps; i++) {
      places[i] = 1 - Math.pow(1 - places[i], power);
    }
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
   * Crowds at both, more at 0 where something narrow lies before.
   *
   * @param steps number of steps
   * @param longestRatio how long the first step may be, over the whole
   */
  static double[] bothEnds(int steps, double longestRatio) {
    double[] places = bothEnds(steps);
    double share = longestRatio / places[1];
    if (share >= 1) {
      return places;
    }
    double ratio = 1 / share;
    for (int i = 0; i < 8; i++) {
      ratio = Math.log(ratio) / share + 1;
    }
    return stretched(places, ratio);
  }

  /** How many more steps bridge lengths that are this much smaller than usual: two an e-fold. */
  static int moreFor(double smallerRatio) {
    return (int) Math.round(2 * Math.max(0, -Math.log(smallerRatio)));
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
