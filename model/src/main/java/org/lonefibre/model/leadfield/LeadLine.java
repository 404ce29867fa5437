package org.lonefibre.model.leadfield;

import java.util.Arrays;
import java.util.function.DoubleUnaryOperator;
import java.util.stream.IntStream;
import org.hipparchus.analysis.interpolation.SplineInterpolator;
import org.hipparchus.analysis.polynomials.PolynomialFunction;

/**
 * A function along a line, solved at places s = w sinh(t) for even t and read by a cubic spline in
 * t. Beyond its ends it is 0. Many slopes in order are read from cubics in s through the spline's
 * slopes and bends at those places, which needs no logarithm.
 */
final class LeadLine {

  private static final double LONGEST_MM = 400;
  private static final double STEP = 0.05;
  private static final double NARROWEST_MM = 0.02;

  private static final int VALUE = 0;
  private static final int FIRST = 1;
  private static final int SECOND = 2;

  private final double width;
  private final double step;
  private final int half;
  private final double[][] spline;
  private final double[] nodesMm;
  private final double[] slopes;
  private final double[] bends;

  /**
   * @param acrossMm distance of the line, which sets how fine the places lie
   * @param solved the function
   */
  LeadLine(double acrossMm, DoubleUnaryOperator solved) {
    this(Math.max(NARROWEST_MM, acrossMm), solved, STEP);
  }

  private LeadLine(double widthMm, DoubleUnaryOperator solved, double step) {
    this(
        widthMm,
        spline(sampled(widthMm, halfSize(widthMm, step), step, solved), step),
        new Places(halfSize(widthMm, step), step));
  }

  /**
   * From a spline, or a weighted sum of several.
   *
   * @param widthMm width of the places
   * @param spline as {@link #spline} makes it
   * @param places those of the spline
   */
  LeadLine(double widthMm, double[][] spline, Places places) {
    width = widthMm;
    step = places.step;
    half = places.half;
    this.spline = spline;
    nodesMm = new double[2 * half + 1];
    slopes = new double[2 * half + 1];
    bends = new double[2 * half + 1];
    for (int i = 0; i <= 2 * half; i++) {
      double perReach = places.perCosh[i] / width;
      nodesMm[i] = width * places.sinh[i];
      slopes[i] = spline[FIRST][i] * perReach;
      bends[i] =
          (spline[SECOND][i] - spline[FIRST][i] * places.sinh[i] * places.perCosh[i])
              * perReach
              * perReach;
    }
  }

  /** Places that many lines share, for a width of 1. */
  static final class Places {

    private final int half;
    private final double step;
    private final double[] sinh;
    private final double[] perCosh;

    Places(int half, double step) {
      this.half = half;
      this.step = step;
      sinh = new double[2 * half + 1];
      perCosh = new double[2 * half + 1];
      for (int i = 0; i <= 2 * half; i++) {
        sinh[i] = Math.sinh((i - half) * step);
        perCosh[i] = 1 / Math.cosh((i - half) * step);
      }
    }
  }

  /** The natural cubic spline through values: they, its first and its second slopes there. */
  static double[][] spline(double[] values, double step) {
    double[] places = new double[values.length];
    for (int i = 0; i < places.length; i++) {
      places[i] = (i - values.length / 2) * step;
    }
    PolynomialFunction[] pieces =
        new SplineInterpolator().interpolate(places, values).getPolynomials();
    double[][] spline = new double[3][values.length];
    spline[VALUE] = values;
    for (int i = 0; i < values.length; i++) {
      double[] own = Arrays.copyOf(pieces[Math.min(i, pieces.length - 1)].getCoefficients(), 4);
      double f = i == pieces.length ? step : 0;
      spline[FIRST][i] = own[1] + f * (2 * own[2] + f * 3 * own[3]);
      spline[SECOND][i] = 2 * own[2] + f * 6 * own[3];
    }
    return spline;
  }

  /** Adds a weighted spline to a sum of splines. */
  static void add(double[][] sum, double weight, double[][] own) {
    for (int kind = 0; kind < sum.length; kind++) {
      double[] to = sum[kind];
      double[] from = own[kind];
      for (int i = 0; i < to.length; i++) {
        to[i] += weight * from[i];
      }
    }
  }

  /** The usual step of t. */
  static double usualStep() {
    return STEP;
  }

  /** How many places on either side reach the ends at a width. */
  static int halfSize(double widthMm, double step) {
    return (int) Math.ceil(asinh(LONGEST_MM / widthMm) / step);
  }

  /** A function's values at the places of a width. */
  static double[] sampled(double widthMm, int half, double step, DoubleUnaryOperator solved) {
    double[] values = new double[2 * half + 1];
    IntStream.rangeClosed(0, 2 * half)
        .parallel()
        .forEach(i -> values[i] = solved.applyAsDouble(widthMm * Math.sinh((i - half) * step)));
    return values;
  }

  double at(double alongMm) {
    double t = asinh(alongMm / width) / step + half;
    int piece = (int) t;
    if (t < 0 || piece >= 2 * half) {
      return 0;
    }
    double f = (t - piece) * step;
    return spline[VALUE][piece]
        + f * (spline[FIRST][piece] + f * (spline[SECOND][piece] / 2 + f * third(piece) / 6));
  }

  private double third(int piece) {
    return (spline[SECOND][piece + 1] - spline[SECOND][piece]) / step;
  }

  double slopeAt(double alongMm) {
    double t = asinh(alongMm / width) / step + half;
    int piece = (int) t;
    if (t < 0 || piece >= 2 * half) {
      return 0;
    }
    double f = (t - piece) * step;
    double slope = spline[FIRST][piece] + f * (spline[SECOND][piece] + f * third(piece) / 2);
    return slope / Math.sqrt(width * width + alongMm * alongMm);
  }

  /** Slopes at evenly spaced places. */
  double[] slopes(double fromMm, double stepMm, int count) {
    double[] found = new double[count];
    int piece = 0;
    for (int i = 0; i < count; i++) {
      double along = fromMm + i * stepMm;
      while (piece < 2 * half && nodesMm[piece + 1] < along) {
        piece++;
      }
      if (piece >= 2 * half) {
        break;
      }
      if (along >= nodesMm[0]) {
        double length = nodesMm[piece + 1] - nodesMm[piece];
        double f = (along - nodesMm[piece]) / length;
        double g = 1 - f;
        found[i] =
            g * g * ((1 + 2 * f) * slopes[piece] + f * length * bends[piece])
                + f * f * ((1 + 2 * g) * slopes[piece + 1] - g * length * bends[piece + 1]);
      }
    }
    return found;
  }

  private static double asinh(double x) {
    double size = Math.abs(x);
    return Math.copySign(Math.log(size + Math.sqrt(size * size + 1)), x);
  }
}
