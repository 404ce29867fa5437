package org.lonefibre.analysis.grading;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import org.lonefibre.signal.recording.TimeBase;
import org.lonefibre.signal.robust.RobustStatistics;

/**
 * Whether something in a potential moves against the rest of it, and at which delay.
 *
 * <p>A second fibre that is late by a delay, and in one sweep by a little more, adds the slope of
 * its potential at that delay. Sweeps are aligned and whitened; arrival is fitted out of each, size
 * and width count as uncertain, size the more the more it is seen to vary; the rest is projected on
 * the slope of the shape at every delay.
 *
 * <ol>
 *   <li>The variance of these projections is compared with their variance in the baseline of the
 *       same sweeps, taken in the same way, so that activity in the distance counts as noise.
 *   <li>They are compared with the arrival of the potential against another one of the unit: what
 *       does not follow the potential moves the other way in what is aligned on it. Noise knows
 *       nothing of arrivals, so this finds smaller fibres than the variance does.
 * </ol>
 *
 * <p>Both are cut so that single sweeps, in which foreign potentials stand, decide nothing. What a
 * neighbour leaves when it is taken out, and what alignment leaves, is not noise: both are measured
 * against noise and these together.
 */
final class ShapeScan {

  private static final double FARTHEST_US = 500;
  private static final double STEP_US = 25;
  private static final double LEAST_SIZE_DEVIATION = 0.1;
  private static final double MOST_SIZE_DEVIATION = 0.2;
  private static final double OVER_SIZE_DEVIATION = 1.5;
  private static final double WIDTH_DEVIATION = 0.04;
  private static final double LEAST_DIRECTION = 0.05;
  private static final double TRIM = 0.1;

  /** Variance of a Gaussian after a tenth of the largest squares has been cut off. */
  private static final double TRIMMED_GAUSSIAN = 0.623;

  private static final double CUT = 3;
  private static final int LEAST_BASELINE = 20;
  static final int LEAST_FOLLOWED = 15;

  /** Evidence of variance counts half: variance is not only that of Gaussian noise. */
  private static final double VARIANCE_WEIGHT = 0.5;

  /** Odds of e^12 to one: more tells nothing more. */
  private static final double MOST_EVIDENCE = 12;

  private final List<Place> places = new ArrayList<>();
  private final int sweeps;

  /**
   * What was found at one delay.
   *
   * @param delayUs the delay
   * @param varianceRatio variance over that of the baseline
   * @param movingUs movement of a fibre as large as the potential that would make the variance
   *     beyond it
   * @param followsSd how much it moves against the arrivals, over what chance gives; 0 if the
   *     potential is alone
   * @param shareOfArrival by how much the arrival of the potential is drawn along with a fibre at
   *     this delay as large as the potential
   */
  record Place(
      double delayUs,
      double varianceRatio,
      double movingUs,
      double followsSd,
      double shareOfArrival) {

    double evidence(int sweeps) {
      double follows = Math.max(0, followsSd);
      return ofVariance(sweeps) + follows * follows / 2;
    }

    /** Logarithm of the likelihood ratio of Gaussian projections. */
    double ofVariance(int sweeps) {
      return varianceRatio > 1 ? sweeps / 2.0 * (varianceRatio - 1 - Math.log(varianceRatio)) : 0;
    }
  }

  /**
   * Scans a potential.
   *
   * @param usual its sweeps
   * @param baseline stretches beside them, as long
   * @param noiseUv standard deviation of the noise
   * @param correlation its correlation at 0, 1, ... samples
   * @param leftoverUv deviation of what alignment and taking out of neighbours may leave
   */
  ShapeScan(
      UndisturbedSweeps usual,
      List<double[]> baseline,
      double noiseUv,
      double[] correlation,
      double leftoverUv,
      TimeBase timeBase) {
    sweeps = usual.rows.size();
    double[] slope = Wave.slope(usual.shape);
    double[] steepSlope = Wave.slope(usual.steepShape);
    double[] widening = Wave.times(WIDTH_DEVIATION, Wave.widening(slope));
    double deviation =
        sizeDeviation(
            usual,
            baseline,
            new NoiseWhitener(noiseUv, correlation, slope.length, widening),
            slope);
    NoiseWhitener whitener =
        new NoiseWhitener(
            noiseUv, correlation, slope.length, Wave.times(deviation, usual.shape), widening);
    double[] arrival = whitener.whiten(slope);
    double size = Math.max(Wave.norm(arrival), 1e-12);
    arrival = Wave.times(1 / size, arrival);
    double leftover = leftoverUv * leftoverUv / Math.max(noiseUv * noiseUv, 1e-12);
    double[] relative = centred(usual.relativeSamples);
    for (double delay = -FARTHEST_US; delay <= FARTHEST_US; delay += STEP_US) {
      int shift = (int) Math.round(timeBase.lengthSamples(delay));
      double[] moved = whitener.whiten(Wave.later(slope, shift));
      double[] direction = Wave.across(moved, arrival);
      double norm = Wave.norm(direction);
      if (norm < LEAST_DIRECTION * size) {
        continue;
      }
      double[] weights = whitener.weights(Wave.times(1 / norm, direction));
      double[] outputs = projected(usual.rows, weights);
      double noise = noise(baseline, weights);
      double ratio = (variance(outputs) + leftover) / Math.max(noise + leftover, 1e-12);
      double beyond = Math.sqrt(Math.max(0, ratio - 1) * (noise + leftover));
      // A second fibre is as steep as the potential, not as its smoothed shape.
      double steep = Math.max(norm, Wave.dot(Wave.later(steepSlope, shift), weights));
      places.add(
          new Place(
              delay,
              ratio,
              timeBase.durationUs(beyond / steep),
              follows(relative, outputs) / Math.sqrt(1 + leftover / Math.max(noise, 1e-12)),
              Wave.dot(moved, arrival) / size));
    }
  }

  /**
   * Evidence for a second fibre, whatever its delay: logarithm of the mean likelihood ratio over
   * the delays, 12 at most; chance gives 0 to 2.
   *
   * @param follows whether movement against the arrivals is weighed as well
   */
  double evidence(boolean follows) {
    double[] logs =
        places.stream()
            .mapToDouble(
                place -> {
                  double variance = VARIANCE_WEIGHT * place.ofVariance(sweeps);
                  double moves = follows ? Math.max(0, place.followsSd()) : 0;
                  return variance + moves * moves / 2;
                })
            .toArray();
    double most = Arrays.stream(logs).max().orElse(0);
    double mean = Arrays.stream(logs).map(log -> Math.exp(log - most)).average().orElse(1);
    return Math.min(MOST_EVIDENCE, most + Math.log(mean));
  }

  /** Strongest movement against the arrivals, over chance; 0 if the potential is alone. */
  double followsSd() {
    return places.stream().mapToDouble(Place::followsSd).max().orElse(0);
  }

  /** Where the evidence for a second fibre is strongest. */
  Place strongest() {
    return places.stream()
        .max(Comparator.comparingDouble(p -> p.evidence(sweeps)))
        .orElse(new Place(0, 1, 0, 0, 0));
  }

  /**
   * How much the size is to be held for uncertain, as a share: one and a half times what is seen to
   * vary in the direction of the shape, within limits.
   */
  private static double sizeDeviation(
      UndisturbedSweeps usual, List<double[]> baseline, NoiseWhitener whitener, double[] slope) {
    double[] arrival = whitener.whiten(slope);
    arrival = Wave.times(1 / Math.max(Wave.norm(arrival), 1e-12), arrival);
    double[] direction = Wave.across(whitener.whiten(usual.shape), arrival);
    double norm = Math.max(Wave.norm(direction), 1e-12);
    double[] weights = whitener.weights(Wave.times(1 / norm, direction));
    double beyond = variance(projected(usual.rows, weights)) - noise(baseline, weights);
    double seen = Math.sqrt(Math.max(0, beyond)) / norm;
    return Math.max(
        LEAST_SIZE_DEVIATION, Math.min(MOST_SIZE_DEVIATION, OVER_SIZE_DEVIATION * seen));
  }

  private static double noise(List<double[]> baseline, double[] weights) {
    return baseline.size() < LEAST_BASELINE ? 1 : variance(projected(baseline, weights));
  }

  private static double[] projected(List<double[]> rows, double[] weights) {
    double[] outputs = new double[rows.size()];
    for (int i = 0; i < outputs.length; i++) {
      outputs[i] = Wave.dot(rows.get(i), weights);
    }
    return outputs;
  }

  /** Trimmed variance. */
  private static double variance(double[] values) {
    double centre = RobustStatistics.median(values);
    double[] squares = new double[values.length];
    for (int i = 0; i < squares.length; i++) {
      squares[i] = (values[i] - centre) * (values[i] - centre);
    }
    int kept = Math.max(1, (int) Math.round((1 - TRIM) * squares.length));
    RobustStatistics.rankInPlace(squares, squares.length, kept - 1);
    double sum = 0;
    for (int i = 0; i < kept; i++) {
      sum += squares[i];
    }
    return sum / kept / TRIMMED_GAUSSIAN;
  }

  /** Correlation with the arrivals, times the root of the number of sweeps. */
  private static double follows(double[] relative, double[] outputs) {
    double[] cut = new double[outputs.length];
    int known = 0;
    for (int i = 0; i < outputs.length; i++) {
      cut[i] = Double.isNaN(relative[i]) ? Double.NaN : outputs[i];
      known += Double.isNaN(relative[i]) ? 0 : 1;
    }
    if (known < LEAST_FOLLOWED) {
      return 0;
    }
    cut = centred(cut);
    double cross = 0;
    double arrivals = 0;
    double own = 0;
    for (int i = 0; i < cut.length; i++) {
      if (!Double.isNaN(cut[i])) {
        cross += cut[i] * relative[i];
        arrivals += relative[i] * relative[i];
        own += cut[i] * cut[i];
      }
    }
    double product = Math.sqrt(arrivals * own);
    return product > 0 ? cross / product * Math.sqrt(known) : 0;
  }

  /** From the median, cut at three deviations, the mean taken off; what is not known stays so. */
  private static double[] centred(double[] values) {
    double[] known = Arrays.stream(values).filter(v -> !Double.isNaN(v)).toArray();
    if (known.length == 0) {
      return values;
    }
    double centre = RobustStatistics.median(known.clone());
    double most = CUT * Math.max(RobustStatistics.standardDeviation(known), 1e-12);
    double[] cut = new double[values.length];
    double sum = 0;
    for (int i = 0; i < values.length; i++) {
      cut[i] =
          Double.isNaN(values[i])
              ? Double.NaN
              : Math.max(-most, Math.min(most, values[i] - centre));
      sum += Double.isNaN(cut[i]) ? 0 : cut[i];
    }
    for (int i = 0; i < cut.length; i++) {
      cut[i] -= sum / known.length;
    }
    return cut;
  }
}
