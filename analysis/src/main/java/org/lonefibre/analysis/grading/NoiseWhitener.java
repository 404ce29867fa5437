package org.lonefibre.analysis.grading;

/**
 * Makes correlated noise white: multiplies by the inverse of the lower triangular root of its
 * covariance, with a little white noise added, so that what the filter took out is not blown up.
 *
 * <ul>
 *   <li>Thread rule: immutable.
 * </ul>
 */
final class NoiseWhitener {

  /** White noise that is added, of the noise's variance (engineering choice, from simulation). */
  private static final double ADDED_RATIO = 0.003;

  private final double[][] root;
  private final double noiseUv;

  /**
   * @param noiseUv standard deviation of the noise
   * @param correlation its correlation at 0, 1, ... samples; what is farther counts as 0
   * @param length samples of what will be whitened
   * @param changesUv waves that may be in each sweep beside noise, each as large as its standard
   *     deviation: they are made as faint as they are uncertain
   */
  NoiseWhitener(double noiseUv, double[] correlation, int length, double[]... changesUv) {
    this.noiseUv = Math.max(noiseUv, 1e-9);
    root = new double[length][];
    for (int i = 0; i < length; i++) {
      double[] row = new double[i + 1];
      for (int j = 0; j <= i; j++) {
        double sum = covariance(correlation, i, j);
        for (double[] change : changesUv) {
          sum += change[i] * change[j] / (this.noiseUv * this.noiseUv);
        }
        double[] other = j == i ? row : root[j];
        for (int k = 0; k < j; k++) {
          sum -= row[k] * other[k];
        }
        row[j] = j == i ? Math.sqrt(Math.max(sum, ADDED_RATIO)) : sum / other[j];
      }
      root[i] = row;
    }
  }

  private static double covariance(double[] correlation, int i, int j) {
    int lag = i - j;
    double value = lag < correlation.length ? correlation[lag] : 0;
    return lag == 0 ? value + ADDED_RATIO : value;
  }

  /** The wave in units in which the noise is white with a deviation of 1. */
  double[] whiten(double[] waveUv) {
    double[] white = new double[waveUv.length];
    for (int i = 0; i < waveUv.length; i++) {
      double[] row = root[i];
      double sum = waveUv[i] / noiseUv;
      for (int k = 0; k < i; k++) {
        sum -= row[k] * white[k];
      }
      white[i] = sum / row[i];
    }
    return white;
  }

  /**
   * Weights whose product with a wave is that of the whitened wave with a direction: waves need not
   * be whitened one by one.
   */
  double[] weights(double[] direction) {
    double[] left = direction.clone();
    double[] weights = new double[direction.length];
    for (int i = left.length - 1; i >= 0; i--) {
      double[] row = root[i];
      double value = left[i] / row[i];
      for (int k = 0; k < i; k++) {
        left[k] -= row[k] * value;
      }
      weights[i] = value / noiseUv;
    }
    return weights;
  }
}
