package org.lonefibre.analysis.potential;

/**
 * Weights samples by the inverse of the noise's spectrum: what is quiet counts more. Bounded, so
 * that bands in which the filter left nothing do not count at all.
 *
 * <pre>w(f) = 1 / (N(f) + e max N)</pre>
 *
 * <p>Whitening without the bound does harm: it raises what the shape's own estimate has of noise.
 * The bound is an engineering choice, checked by {@code validate --campaign timing}.
 */
final class NoiseInverse {

  private static final double BOUND = 0.1;
  private static final int POINTS = 1024;

  private final double[] kernel;
  private final double slopeNoise;
  private final double weightedSlopeNoise;

  /**
   * @param correlation of the noise with itself, from lag 0
   * @param reach samples it looks to either side
   */
  NoiseInverse(double[] correlation, int reach) {
    int lags = correlation.length;
    double[] spectrum = new double[POINTS];
    double[] cosines = cosines();
    double[] tapered = new double[lags];
    for (int lag = 1; lag < lags; lag++) {
      tapered[lag] = 2 * (0.5 + 0.5 * Math.cos(Math.PI * lag / lags)) * correlation[lag];
    }
    double most = 0;
    for (int k = 0; k < POINTS; k++) {
      double sum = correlation[0];
      for (int lag = 1; lag < lags; lag++) {
        sum += tapered[lag] * cosines[(2 * k + 1) * lag % cosines.length];
      }
      spectrum[k] = Math.max(0, sum);
      most = Math.max(most, spectrum[k]);
    }
    double slope = 0;
    double weightedSlope = 0;
    for (int k = 0; k < POINTS; k++) {
      double w = Math.PI * (k + 0.5) / POINTS;
      double passed = spectrum[k] / (spectrum[k] + BOUND * most);
      slope += w * w * passed / POINTS;
      weightedSlope += w * w * passed * passed / POINTS;
    }
    slopeNoise = slope;
    weightedSlopeNoise = weightedSlope;
    kernel = new double[2 * reach + 1];
    for (int lag = 0; lag <= reach; lag++) {
      double sum = 0;
      for (int k = 0; k < POINTS; k++) {
        sum += cosines[(2 * k + 1) * lag % cosines.length] / (spectrum[k] + BOUND * most);
      }
      double taper = 0.5 + 0.5 * Math.cos(Math.PI * lag / (reach + 1));
      kernel[reach + lag] = taper * sum / POINTS;
      kernel[reach - lag] = kernel[reach + lag];
    }
  }

  /** Cosines of a whole turn: half a point's frequency times a lag is a place in it. */
  private static double[] cosines() {
    double[] cosines = new double[4 * POINTS];
    for (int i = 0; i < cosines.length; i++) {
      cosines[i] = Math.cos(Math.PI * i / (2 * POINTS));
    }
    return cosines;
  }

  /** Product of the slope of unit noise with its weighted slope, a sample. */
  double slopeNoise() {
    return slopeNoise;
  }

  /** Noise that passes the weighted slope of unit noise, as its variance, a sample. */
  double weightedSlopeNoise() {
    return weightedSlopeNoise;
  }

  /** Samples it adds to either side. */
  int reach() {
    return kernel.length / 2;
  }

  /** The weighted wave, longer by the reach on either side. */
  double[] weigh(double[] wave) {
    double[] weighted = new double[wave.length + kernel.length - 1];
    for (int k = 0; k < wave.length; k++) {
      for (int j = 0; j < kernel.length; j++) {
        weighted[k + j] += wave[k] * kernel[j];
      }
    }
    return weighted;
  }
}
