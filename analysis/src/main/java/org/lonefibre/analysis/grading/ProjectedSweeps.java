package org.lonefibre.analysis.grading;

import java.util.Arrays;
import java.util.List;
import org.lonefibre.signal.robust.RobustStatistics;

/**
 * Sweeps of a potential, and stretches of the baseline beside them, laid on a direction.
 *
 * @param rows sweeps, one or more
 * @param baseline stretches as long
 */
record ProjectedSweeps(List<double[]> rows, List<double[]> baseline) {

  private static final double TRIM = 0.1;

  /** Variance of a Gaussian after a tenth of the largest squares has been cut off. */
  private static final double TRIMMED_GAUSSIAN = 0.623;

  private static final int LEAST_BASELINE = 20;

  /** What each sweep has of a direction. */
  double[] outputs(double[] weights) {
    return outputs(rows, weights);
  }

  /** Variance of what the baseline has of it; 1 where there is too little of that. */
  double noise(double[] weights) {
    return baseline.size() < LEAST_BASELINE ? 1 : variance(outputs(baseline, weights));
  }

  private static double[] outputs(List<double[]> rows, double[] weights) {
    double[] outputs = new double[rows.size()];
    for (int i = 0; i < outputs.length; i++) {
      outputs[i] = Wave.dot(rows.get(i), weights);
    }
    return outputs;
  }

  /** Trimmed variance. */
  static double variance(double[] values) {
    double centre = RobustStatistics.median(values);
    double[] squares =
        Arrays.stream(values).map(value -> (value - centre) * (value - centre)).toArray();
    int kept = Math.max(1, (int) Math.round((1 - TRIM) * squares.length));
    RobustStatistics.rankInPlace(squares, squares.length, kept - 1);
    return Arrays.stream(squares, 0, kept).sum() / kept / TRIMMED_GAUSSIAN;
  }
}
