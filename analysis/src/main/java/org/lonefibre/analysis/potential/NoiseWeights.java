package org.lonefibre.analysis.potential;

import java.util.Arrays;
import org.jtransforms.fft.DoubleFFT_1D;

/**
 * Makes of a shape the wave by which arrivals are found near the bound of Cramer and Rao. What is
 * quiet counts more, and what of the shape is noise that its own estimate kept does not count:
 *
 * <pre>w(f) = g(f) / (N(f) + e max N),  g(f) = 1 - 1 / r(f), or 0 where r is under 2</pre>
 *
 * <p>with N the variance of the noise and r the power of the shape over that of the noise left in
 * it, smoothed over neighbouring frequencies; g is Wiener's filter (textbook). Weighted by 1 / N
 * alone, noise in the shape counts most where the potential has nothing.
 */
final class NoiseWeights {

  /** Engineering choice: bands in which the filter left almost nothing do not count. */
  private static final double BOUND = 0.01;

  /** Frequencies that the shape's length tells apart, taken together on either side. */
  private static final double SMOOTHED_CELLS = 2;

  /** Engineering choice: below it, power over that of noise alone is chance. */
  private static final double LEAST_RATIO = 2;

  private final double noiseUv;
  private final double[] correlation;
  private final int reach;

  /**
   * @param noiseUv its deviation
   * @param correlation of the noise with itself, from lag 0
   * @param reach samples the weighted wave is longer on either side
   */
  NoiseWeights(double noiseUv, double[] correlation, int reach) {
    this.noiseUv = noiseUv;
    this.correlation = correlation;
    this.reach = reach;
  }

  /**
   * The shape as arrivals are found by it.
   *
   * @param discharges how many it is the mean of
   */
  WeightedShape weigh(PotentialShape shape, int discharges) {
    int length = shape.length();
    int size = Integer.highestOneBit(length + 2 * reach + 2 * correlation.length) * 2;
    DoubleFFT_1D transform = new DoubleFFT_1D(size);
    double[] noise = noisePower(size, transform);
    double[] own = new double[size];
    System.arraycopy(shape.samples(), 0, own, reach, length);
    transform.realForward(own);
    double[] ratio = powerRatio(own, noise, (int) Math.round(SMOOTHED_CELLS * size / length));
    double shapeNoise = noiseUv * noiseUv * length / Math.max(1, discharges);
    filter(own, ratio, shapeNoise);
    double[] weighted = own.clone();
    for (int k = 0; k < noise.length; k++) {
      times(weighted, k, 1 / noise[k]);
    }
    PotentialShape ownShape = shape(own, transform, shape);
    PotentialShape weightedShape = shape(weighted, transform, shape);
    double error = ownShape.arrivalError(noiseUv, correlation, weightedShape);
    return new WeightedShape(ownShape, weightedShape, error);
  }

  /** Leaves of a shape what is its own; all of it if nothing stands out of the noise. */
  private static void filter(double[] spectrum, double[] ratio, double shapeNoise) {
    if (Arrays.stream(ratio).max().orElse(0) <= LEAST_RATIO * shapeNoise) {
      return;
    }
    for (int k = 0; k < ratio.length; k++) {
      double r = ratio[k] / shapeNoise;
      times(spectrum, k, r > LEAST_RATIO ? 1 - 1 / r : 0);
    }
  }

  private PotentialShape shape(double[] spectrum, DoubleFFT_1D transform, PotentialShape of) {
    transform.realInverse(spectrum, true);
    double[] wave = Arrays.copyOf(spectrum, of.length() + 2 * reach);
    return new PotentialShape(wave, of.origin() + reach);
  }

  /** Variance of unit noise by frequency, from 0 to half the sampling rate, and the bound. */
  private double[] noisePower(int size, DoubleFFT_1D transform) {
    double[] lags = new double[size];
    int count = correlation.length;
    lags[0] = correlation[0];
    for (int lag = 1; lag < count; lag++) {
      double taper = 0.5 + 0.5 * Math.cos(Math.PI * lag / count);
      lags[lag] = taper * correlation[lag];
      lags[size - lag] = lags[lag];
    }
    transform.realForward(lags);
    double[] power = new double[size / 2 + 1];
    double most = 0;
    for (int k = 0; k < power.length; k++) {
      power[k] = Math.max(0, real(lags, k));
      most = Math.max(most, power[k]);
    }
    for (int k = 0; k < power.length; k++) {
      power[k] += BOUND * most;
    }
    return power;
  }

  /** Power over that of unit noise, the mean of {@code half} frequencies on either side. */
  private static double[] powerRatio(double[] spectrum, double[] noise, int half) {
    int count = spectrum.length / 2 + 1;
    double[] sums = new double[count + 1];
    for (int k = 0; k < count; k++) {
      double re = real(spectrum, k);
      double im = k == 0 || k == count - 1 ? 0 : spectrum[2 * k + 1];
      sums[k + 1] = sums[k] + (re * re + im * im) / noise[k];
    }
    double[] smoothed = new double[count];
    for (int k = 0; k < count; k++) {
      int from = Math.max(0, k - half);
      int to = Math.min(count, k + half + 1);
      smoothed[k] = (sums[to] - sums[from]) / (to - from);
    }
    return smoothed;
  }

  /** Real part in a spectrum packed as JTransforms does: the last one is its second value. */
  private static double real(double[] spectrum, int k) {
    return k == spectrum.length / 2 ? spectrum[1] : spectrum[2 * k];
  }

  private static void times(double[] spectrum, int k, double factor) {
    if (k == spectrum.length / 2) {
      spectrum[1] *= factor;
    } else {
      spectrum[2 * k] *= factor;
      spectrum[2 * k + 1] *= k == 0 ? 1 : factor;
    }
  }
}
