package org.lonefibre.analysis.grading;

import java.util.Arrays;
import java.util.List;
import org.lonefibre.signal.recording.TimeBase;
import org.lonefibre.signal.robust.RobustStatistics;

/**
 * Whether the shape varies from sweep to sweep more than noise explains, and at which delay: what
 * is left of each sweep after shape, slope and width have been fitted is projected on the slope of
 * the shape shifted by a delay; a second fibre that moves against the first gives this projection a
 * variance at its delay.
 */
final class ShapeConstancy {

  private static final double FARTHEST_US = 500;
  private static final double STEP_US = 25;
  private static final double TRIM = 0.1;

  /** Variance of a Gaussian after a tenth of the largest squares has been cut off. */
  private static final double TRIMMED_GAUSSIAN = 0.645;

  /**
   * The strongest variation found.
   *
   * @param noiseRatio standard deviation over that of noise
   * @param variationRatio standard deviation beyond noise, over the size of the shape's slope for
   *     the rise of one steep phase
   * @param delayUs delay at which it was found
   */
  record Variation(double noiseRatio, double variationRatio, double delayUs) {}

  private ShapeConstancy() {}

  static Variation measure(
      List<double[]> sweeps,
      double[] mean,
      double noiseUv,
      double[] correlation,
      TimeBase timeBase) {
    int length = mean.length;
    double[] slope = slope(mean);
    double[][] fitted = orthogonal(mean, slope, width(mean, slope));
    double[][] left = new double[sweeps.size()][];
    for (int i = 0; i < left.length; i++) {
      left[i] = sweeps.get(i).clone();
      project(left[i], fitted);
    }
    double size = Math.sqrt(dot(slope, slope));
    Variation strongest = new Variation(1, 0, 0);
    double most = 0;
    for (double delay = -FARTHEST_US; delay <= FARTHEST_US; delay += STEP_US) {
      int shift = (int) Math.round(timeBase.lengthSamples(delay));
      double[] direction = new double[length];
      for (int k = 0; k < length; k++) {
        int from = k - shift;
        direction[k] = from >= 0 && from < length ? slope[from] : 0;
      }
      project(direction, fitted);
      double norm = Math.sqrt(dot(direction, direction));
      if (norm < 0.2 * size) {
        continue;
      }
      double expected = noiseUv * noiseUv * quadratic(direction, correlation) / (norm * norm);
      double seen = variance(left, direction) / (norm * norm);
      double beyond = Math.max(0, seen - expected);
      double ratio = seen / expected;
      double relative = Math.sqrt(beyond) / size;
      if (ratio > most) {
        most = ratio;
        strongest = new Variation(Math.sqrt(ratio), relative, delay);
      }
    }
    return strongest;
  }

  /** Trimmed variance, over the sweeps, of the projection on a direction. */
  private static double variance(double[][] left, double[] direction) {
    double[] outputs = new double[left.length];
    for (int i = 0; i < outputs.length; i++) {
      outputs[i] = dot(left[i], direction);
    }
    double centre = RobustStatistics.median(outputs.clone());
    for (int i = 0; i < outputs.length; i++) {
      outputs[i] = (outputs[i] - centre) * (outputs[i] - centre);
    }
    Arrays.sort(outputs);
    int kept = Math.max(1, (int) Math.round((1 - TRIM) * outputs.length));
    double sum = 0;
    for (int i = 0; i < kept; i++) {
      sum += outputs[i];
    }
    return sum / kept / TRIMMED_GAUSSIAN;
  }

  private static double[] slope(double[] shape) {
    double[] slope = new double[shape.length];
    for (int k = 1; k < shape.length - 1; k++) {
      slope[k] = (shape[k + 1] - shape[k - 1]) / 2;
    }
    return slope;
  }

  /** Change of the shape when it widens about its steepest point. */
  private static double[] width(double[] shape, double[] slope) {
    int steep = 0;
    for (int k = 0; k < shape.length; k++) {
      steep = Math.abs(slope[k]) > Math.abs(slope[steep]) ? k : steep;
    }
    double[] width = new double[shape.length];
    for (int k = 0; k < shape.length; k++) {
      width[k] = (k - steep) * slope[k];
    }
    return width;
  }

  private static double[][] orthogonal(double[]... vectors) {
    double[][] basis = new double[vectors.length][];
    for (int v = 0; v < vectors.length; v++) {
      basis[v] = vectors[v].clone();
      for (int u = 0; u < v; u++) {
        subtract(basis[v], basis[u]);
      }
      double norm = Math.sqrt(Math.max(dot(basis[v], basis[v]), 1e-30));
      for (int k = 0; k < basis[v].length; k++) {
        basis[v][k] /= norm;
      }
    }
    return basis;
  }

  private static void project(double[] vector, double[][] basis) {
    for (double[] axis : basis) {
      subtract(vector, axis);
    }
  }

  private static void subtract(double[] vector, double[] axis) {
    double along = dot(vector, axis);
    for (int k = 0; k < vector.length; k++) {
      vector[k] -= along * axis[k];
    }
  }

  private static double quadratic(double[] v, double[] correlation) {
    double sum = 0;
    for (int lag = 0; lag < Math.min(v.length, correlation.length); lag++) {
      double product = 0;
      for (int k = lag; k < v.length; k++) {
        product += v[k] * v[k - lag];
      }
      sum += (lag == 0 ? 1 : 2) * correlation[lag] * product;
    }
    return Math.max(sum, 1e-12);
  }

  private static double dot(double[] a, double[] b) {
    double sum = 0;
    for (int k = 0; k < a.length; k++) {
      sum += a[k] * b[k];
    }
    return sum;
  }
}
