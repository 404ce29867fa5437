package org.lonefibre.analysis.grading;

import java.util.List;
import java.util.stream.Stream;

/**
 * What may vary in the shape of one fibre from sweep to sweep: its size and its width, the more the
 * more they are seen to vary; and what potentials beside it add when they widen, by as much.
 *
 * <ul>
 *   <li>Thread rule: immutable.
 * </ul>
 */
final class ShapeChanges {

  private static final Limits SIZE = new Limits(0.02, 0.2);
  private static final Limits WIDTH = new Limits(0.015, 0.025);

  private final ProjectedSweeps sweeps;
  private final double noiseUv;
  private final double[] correlation;
  private final double[] shape;
  private final double[] slope;

  ShapeChanges(ProjectedSweeps sweeps, double[] shape, double noiseUv, double[] correlation) {
    this.sweeps = sweeps;
    this.noiseUv = noiseUv;
    this.correlation = correlation;
    this.shape = shape;
    this.slope = Wave.slope(shape);
  }

  /** Standard deviation as a share, at least and at most (engineering choices, by simulation). */
  private record Limits(double least, double most) {}

  /**
   * Waves that may be in each sweep beside noise, each as large as its standard deviation.
   *
   * @param widenings what other potentials add when they widen, per unit of their width
   */
  double[][] with(List<double[]> widenings) {
    double[] widening = Wave.widening(slope);
    double size = deviation(shape, SIZE, Wave.times(WIDTH.least, widening));
    double width = deviation(widening, WIDTH, Wave.times(size, shape));
    return Stream.concat(
            Stream.of(Wave.times(size, shape)),
            Stream.concat(Stream.of(widening), widenings.stream())
                .map(wave -> Wave.times(width, wave)))
        .toArray(double[][]::new);
  }

  /** What is seen to vary in the direction of a wave, another held for uncertain; in limits. */
  private double deviation(double[] wave, Limits limits, double[] other) {
    NoiseWhitener whitener = new NoiseWhitener(noiseUv, correlation, slope.length, other);
    double[] arrival = whitener.whiten(slope);
    arrival = Wave.times(1 / Math.max(Wave.norm(arrival), 1e-12), arrival);
    double[] direction = Wave.across(whitener.whiten(wave), arrival);
    double norm = Math.max(Wave.norm(direction), 1e-12);
    double[] weights = whitener.weights(Wave.times(1 / norm, direction));
    double beyond = ProjectedSweeps.variance(sweeps.outputs(weights)) - sweeps.noise(weights);
    double seen = Math.sqrt(Math.max(0, beyond)) / norm;
    return Math.max(limits.least, Math.min(limits.most, seen));
  }
}
