package org.lonefibre.model.endplate;

import java.util.ArrayList;
import java.util.List;

/**
 * The mean absolute difference of neighbouring intervals that the generating laws must give.
 *
 * <p>For a difference X with the real characteristic function f, E|X| = (2/pi) integral of (1 -
 * f(t)) / t^2 dt over t above 0; f is the product of those of the parts.
 *
 * <ul>
 *   <li>Two Gaussian end-plates: 2/sqrt(pi) sqrt(s1^2 + s2^2), 1.128 times the deviation.
 *   <li>Parts that both fibres share cancel and must be left out.
 *   <li>A trend common to both cancels; else it is a constant step between neighbours.
 *   <li>Velocity recovery adds a Gaussian part, exact as far as inter-discharge intervals are
 *       Gaussian.
 *   <li>Blocks do not change it: differences are only between neighbours both present.
 *   <li>Source: the integral is a textbook identity, from memory; tests hold it to draws.
 * </ul>
 */
public final class ExpectedJitter {

  private static final int STEPS_PER_WAVE = 24;
  private static final double SMALLEST_DEVIATION_US = 0.02;

  private final List<DelayLaws> parts = new ArrayList<>();
  private double gaussianVariance;
  private double recoveryPerMsUs;
  private double trendUs;

  /** Adds the first fibre's own end-plate. */
  public ExpectedJitter add(EndPlateSettings settings) {
    return add(settings, 1);
  }

  /** Adds the other fibre's own end-plate. */
  public ExpectedJitter subtract(EndPlateSettings settings) {
    return add(settings, -1);
  }

  /** Adds an independent Gaussian part of a given standard deviation. */
  public ExpectedJitter addGaussian(double standardDeviationUs) {
    gaussianVariance += standardDeviationUs * standardDeviationUs;
    return this;
  }

  private ExpectedJitter add(EndPlateSettings settings, int sign) {
    parts.add(new DelayLaws(settings));
    recoveryPerMsUs += sign * settings.recoveryPerMsUs();
    trendUs += sign * settings.trendPerDischargeUs();
    return this;
  }

  /**
   * The expectation.
   *
   * @param intervalDeviationMs standard deviation of inter-discharge intervals, for recovery
   */
  public double meanConsecutiveDifferenceUs(double intervalDeviationMs) {
    double recoveryUs = recoveryPerMsUs * intervalDeviationMs;
    double gaussian = gaussianVariance + recoveryUs * recoveryUs;
    double variance = gaussian;
    double longestUs = Math.abs(trendUs);
    for (DelayLaws part : parts) {
      variance += part.deviationUs() * part.deviationUs();
      longestUs = Math.max(longestUs, part.settings().flipFlopUs());
    }
    if (variance < SMALLEST_DEVIATION_US * SMALLEST_DEVIATION_US) {
      if (longestUs == 0) {
        return 0;
      }
      gaussian += SMALLEST_DEVIATION_US * SMALLEST_DEVIATION_US;
      variance += SMALLEST_DEVIATION_US * SMALLEST_DEVIATION_US;
    }
    double deviation = Math.sqrt(variance);
    double end = 7 / deviation;
    double step = 2 * Math.PI / STEPS_PER_WAVE / Math.max(3 * deviation, longestUs);
    int steps = Math.max(64, (int) Math.ceil(end / step));
    step = end / steps;
    double sum = 0;
    for (int i = 0; i < steps; i++) {
      double t = (i + 0.5) * step;
      sum += (1 - characteristic(t, gaussian)) / (t * t);
    }
    return 2 / Math.PI * (sum * step + 1 / end);
  }

  private double characteristic(double t, double gaussian) {
    double product = StrictMath.exp(-gaussian * t * t) * StrictMath.cos(trendUs * t);
    for (DelayLaws part : parts) {
      product *= part.differenceRatio(t);
    }
    return product;
  }
}
