package org.lonefibre.model.leadfield;

import java.util.function.DoubleUnaryOperator;
import java.util.stream.IntStream;
import org.hipparchus.analysis.interpolation.SplineInterpolator;
import org.hipparchus.analysis.polynomials.PolynomialFunction;

/**
 * A function along a line, solved at places s = w sinh(t) for even t and read by a cubic spline in
 * t. Beyond its ends it is 0.
 */
final class LeadLine {

  private static final double LONGEST_MM = 400;
  private static final double STEP = 0.05;

  private final double width;
  private final int half;
  private final double[] coefficients;

  /**
   * @param acrossMm distance of the line, which sets how fine the places lie
   * @param solved the function
   */
  LeadLine(double acrossMm, DoubleUnaryOperator solved) {
    width = Math.max(0.02, acrossMm);
    half = (int) Math.ceil(asinh(LONGEST_MM / width) / STEP);
    double[] places = new double[2 * half + 1];
    double[] values = new double[2 * half + 1];
    IntStream.rangeClosed(0, 2 * half)
        .parallel()
        .forEach(
            i -> {
              places[i] = (i - half) * STEP;
              values[i] = solved.applyAsDouble(width * Math.sinh(places[i]));
            });
    PolynomialFunction[] pieces =
        new SplineInterpolator().interpolate(places, values).getPolynomials();
    coefficients = new double[4 * pieces.length];
    for (int i = 0; i < pieces.length; i++) {
      double[] own = pieces[i].getCoefficients();
      System.arraycopy(own, 0, coefficients, 4 * i, own.length);
    }
  }

  double at(double alongMm) {
    double t = asinh(alongMm / width) / STEP + half;
    int piece = (int) t;
    if (t < 0 || piece >= 2 * half) {
      return 0;
    }
    double f = (t - piece) * STEP;
    int c = 4 * piece;
    return coefficients[c]
        + f * (coefficients[c + 1] + f * (coefficients[c + 2] + f * coefficients[c + 3]));
  }

  double slopeAt(double alongMm) {
    double t = asinh(alongMm / width) / STEP + half;
    int piece = (int) t;
    if (t < 0 || piece >= 2 * half) {
      return 0;
    }
    double f = (t - piece) * STEP;
    int c = 4 * piece;
    double slope =
        coefficients[c + 1] + f * (2 * coefficients[c + 2] + f * 3 * coefficients[c + 3]);
    return slope / Math.sqrt(width * width + alongMm * alongMm);
  }

  private static double asinh(double x) {
    double size = Math.abs(x);
    return Math.copySign(Math.log(size + Math.sqrt(size * size + 1)), x);
  }
}
