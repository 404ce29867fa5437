package org.lonefibre.model.leadfield;

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

  private final double width;
  private final double step;
  private final int half;
  private final double[] coefficients;
  private final double[] nodesMm;
  private final double[] slopes;
  private final double[] bends;

  /**
   * @param acrossMm distance of the line, which sets how fine the places lie
   * @param solved the function
   */
  LeadLine(double acrossMm, DoubleUnaryOperator solved) {
    this(
        Math.max(NARROWEST_MM, acrossMm),
        sampled(
            Math.max(NARROWEST_MM, acrossMm),
            halfSize(Math.max(NARROWEST_MM, acrossMm), STEP),
            STEP,
            solved),
        STEP);
  }

  /** From values at the places of {@link #sampled}. */
  LeadLine(double widthMm, double[] values, double step) {
    width = widthMm;
    this.step = step;
    half = values.length / 2;
    double[] places = new double[values.length];
    for (int i = 0; i < places.length; i++) {
      places[i] = (i - half) * step;
    }
    PolynomialFunction[] pieces =
        new SplineInterpolator().interpolate(places, values).getPolynomials();
    coefficients = new double[4 * pieces.length];
    for (int i = 0; i < pieces.length; i++) {
      double[] own = pieces[i].getCoefficients();
      System.arraycopy(own, 0, coefficients, 4 * i, own.length);
    }
    nodesMm = new double[2 * half + 1];
    slopes = new double[2 * half + 1];
    bends = new double[2 * half + 1];
    for (int i = 0; i <= 2 * half; i++) {
      int c = 4 * Math.min(i, 2 * half - 1);
      double f = i == 2 * half ? step : 0;
      double first =
          coefficients[c + 1] + f * (2 * coefficients[c + 2] + f * 3 * coefficients[c + 3]);
      double second = 2 * coefficients[c + 2] + f * 6 * coefficients[c + 3];
      double reach = width * Math.cosh(places[i]);
      nodesMm[i] = width * Math.sinh(places[i]);
      slopes[i] = first / reach;
      bends[i] = (second - first * Math.tanh(places[i])) / (reach * reach);
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
    int c = 4 * piece;
    return coefficients[c]
        + f * (coefficients[c + 1] + f * (coefficients[c + 2] + f * coefficients[c + 3]));
  }

  double slopeAt(double alongMm) {
    double t = asinh(alongMm / width) / step + half;
    int piece = (int) t;
    if (t < 0 || piece >= 2 * half) {
      return 0;
    }
    double f = (t - piece) * step;
    int c = 4 * piece;
    double slope =
        coefficients[c + 1] + f * (2 * coefficients[c + 2] + f * 3 * coefficients[c + 3]);
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
