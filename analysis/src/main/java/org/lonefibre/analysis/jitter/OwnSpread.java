package org.lonefibre.analysis.jitter;

/**
 * How far a measured own squared jitter may lie from the true one, which grows with the true one:
 * the interval is taken on the scale on which it does not.
 *
 * <ol>
 *   <li>For Gaussian end-plates the error follows from the squared jitters of all potentials of the
 *       unit: mean absolute differences of correlated Gaussian values, neighbours included. Only
 *       its shape is used; its size is that found from the sweeps.
 *   <li>The scale is the integral of one over that error; on it the interval is that of {@link
 *       NearZero}.
 * </ol>
 */
final class OwnSpread {

  private static final double STEP = 0.1;
  private static final double USUAL = 1.959964;

  /** A scale longer than this is that of an error far smaller than what it is the error of. */
  private static final int MOST_STEPS = 5_000;

  private final double[] squares;
  private final int potential;

  /** Variance over the true square, up to a factor: a parabola through three of its values. */
  private final double[] parabola = new double[3];

  /**
   * @param squares squared jitters of the potentials of the unit as measured
   * @param potential the one in question
   */
  OwnSpread(double[] squares, int potential) {
    this.squares = squares.clone();
    this.potential = potential;
    double typical = 0;
    for (double square : squares) {
      typical = Math.max(typical, square);
    }
    typical = Math.max(typical, 1e-9);
    double none = shape(0);
    double half = shape(typical / 2);
    double whole = shape(typical);
    parabola[0] = none;
    parabola[1] = (4 * half - 3 * none - whole) / typical;
    parabola[2] = 2 * (whole + none - 2 * half) / (typical * typical);
  }

  /**
   * Ends of the interval of the squared jitter.
   *
   * @param reach distance that 95 % of the errors do not exceed, at the measured value
   * @return lower and upper end, 0 or more
   */
  double[] ends(double reach) {
    double measured = squares[potential];
    double unit = reach / USUAL / deviation(Math.max(0, measured));
    double value =
        measured < 0
            ? measured / (unit * deviation(0))
            : scaled(measured, Double.POSITIVE_INFINITY, unit)[0];
    if (!(unit > 0 && value < MOST_STEPS * STEP)) {
      return new double[] {Math.max(0, measured - reach), Math.max(0, measured + reach)};
    }
    return new double[] {
      scaled(Double.POSITIVE_INFINITY, NearZero.low(value), unit)[1],
      scaled(Double.POSITIVE_INFINITY, NearZero.high(value), unit)[1]
    };
  }

  /**
   * Walks the scale up from zero to a square or to a place on the scale: that place and square; NaN
   * if the scale is too long.
   */
  private double[] scaled(double toSquare, double toPlace, double unit) {
    double place = 0;
    double square = 0;
    for (int step = 0; step < 2 * MOST_STEPS; step++) {
      double half = square + unit * deviation(square) * STEP / 2;
      double next = square + unit * deviation(half) * STEP;
      double share = Math.min((toSquare - square) / (next - square), (toPlace - place) / STEP);
      if (share <= 1) {
        return new double[] {place + share * STEP, square + share * (next - square)};
      }
      place += STEP;
      square = next;
    }
    return new double[] {Double.NaN, Double.NaN};
  }

  private double deviation(double square) {
    double variance = parabola[0] + square * (parabola[1] + square * parabola[2]);
    return Math.sqrt(Math.max(variance, 1e-9 * parabola[0]));
  }

  /** Variance of the measured square, up to a factor, if the true one were this. */
  private double shape(double square) {
    int n = squares.length;
    double sum = 0;
    for (int b = 1; b < n; b++) {
      for (int a = 0; a < b; a++) {
        for (int d = 1; d < n; d++) {
          for (int c = 0; c < d; c++) {
            double shared = of(a, square) * (sign(a, c, d)) + of(b, square) * (-sign(b, c, d));
            double one = of(a, square) + of(b, square);
            double other = of(c, square) + of(d, square);
            double product = one * other;
            double correlation =
                product > 0 ? Math.min(1, Math.abs(shared) / Math.sqrt(product)) : 0;
            if (correlation > 0) {
              sum +=
                  weight(a, b)
                      * weight(c, d)
                      * product
                      * (joint(correlation) + 2 * joint(correlation / 2));
            }
          }
        }
      }
    }
    return Math.max(sum, 1e-12);
  }

  private double of(int p, double square) {
    return p == potential ? square : Math.max(0, squares[p]);
  }

  /** 1 if a potential is the first of a pair, -1 if it is the second, 0 if neither. */
  private static int sign(int p, int first, int second) {
    return p == first ? 1 : p == second ? -1 : 0;
  }

  private double weight(int a, int b) {
    boolean its = a == potential || b == potential;
    return (its ? 1.0 : 0.0) - 1.0 / (squares.length - 1);
  }

  /** Covariance of the absolute values of two Gaussian values, up to a factor. */
  private static double joint(double correlation) {
    return correlation * Math.asin(correlation) + Math.sqrt(1 - correlation * correlation) - 1;
  }
}
