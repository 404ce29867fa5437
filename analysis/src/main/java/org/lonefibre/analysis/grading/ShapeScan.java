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
 * and width count as uncertain; the rest is projected on the slope of the shape at every delay.
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
  private static final double AMPLITUDE_DEVIATION = 0.15;
  private static final double WIDTH_DEVIATION = 0.04;
  private static final double LEAST_DIRECTION = 0.05;
  private static final double TRIM = 0.1;

  /** Variance of a Gaussian after a tenth of the largest squares has been cut off. */
  private static final double TRIMMED_GAUSSIAN = 0.623;

  private static final double CUT = 3;
  private static final int LEAST_BASELINE = 20;
  static final int LEAST_FOLLOWED = 15;
  private static final double STRONGEST_SHARE = 0.2;
  private static final double USUAL_SWEEPS = 60;

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
      double variance =
          varianceRatio > 1 ? sweeps / 2.0 * (varianceRatio - 1 - Math.log(varianceRatio)) : 0;
      return variance + Math.max(0, followsSd) * Math.max(0, followsSd) / 2;
    }
  }

  /**
   * Scans a potential.
   *
   * @param aligned its sweeps
   * @param noiseUv standard deviation of the noise
   * @param correlation its correlation at 0, 1, ... samples
   * @param leftoverUv deviation of what alignment and taking out of neighbours may leave
   */
  ShapeScan(
      AlignedSweeps aligned,
      double noiseUv,
      double[] correlation,
      double leftoverUv,
      TimeBase timeBase) {
    sweeps = aligned.zeroPhase.size();
    double[] shape = AlignedSweeps.median(aligned.zeroPhase);
    double[] slope = Wave.slope(shape);
    NoiseWhitener whitener =
        new NoiseWhitener(
            noiseUv,
            correlation,
            shape.length,
            Wave.times(AMPLITUDE_DEVIATION, shape),
            Wave.times(WIDTH_DEVIATION, Wave.widening(slope)));
    double[] arrival = whitener.whiten(slope);
    double size = Math.max(Wave.norm(arrival), 1e-12);
    arrival = Wave.times(1 / size, arrival);
    double[][] left = across(aligned.zeroPhase, whitener, arrival);
    double[][] baseline = across(aligned.baseline, whitener, arrival);
    double leftover = leftoverUv * leftoverUv / Math.max(noiseUv * noiseUv, 1e-12);
    double[] relative = centred(aligned.relativeSamples());
    for (double delay = -FARTHEST_US; delay <= FARTHEST_US; delay += STEP_US) {
      int shift = (int) Math.round(timeBase.lengthSamples(delay));
      double[] moved = whitener.whiten(Wave.later(slope, shift));
      double[] direction = Wave.across(moved, arrival);
      double norm = Wave.norm(direction);
      if (norm < LEAST_DIRECTION * size) {
        continue;
      }
      direction = Wave.times(1 / norm, direction);
      double[] outputs = projected(left, direction);
      double noise =
          baseline.length < LEAST_BASELINE ? 1 : variance(projected(baseline, direction));
      double ratio = (variance(outputs) + leftover) / Math.max(noise + leftover, 1e-12);
      double beyond = Math.sqrt(Math.max(0, ratio - 1) * (noise + leftover));
      places.add(
          new Place(
              delay,
              ratio,
              timeBase.durationUs(beyond / norm),
              follows(relative, outputs) / Math.sqrt(1 + leftover / Math.max(noise, 1e-12)),
              Wave.dot(moved, arrival) / size));
    }
  }

  /**
   * Mean logarithm of the variance ratio over the fifth of the delays where it is largest, scaled
   * to 60 sweeps, so that chance gives about the same for any number of them; 0 if no delay tells
   * anything, as for a shape that a shift hardly changes.
   */
  double variation() {
    double[] logs =
        places.stream().mapToDouble(p -> Math.log(Math.max(p.varianceRatio(), 1e-6))).toArray();
    if (logs.length == 0) {
      return 0;
    }
    Arrays.sort(logs);
    int kept = Math.max(1, (int) Math.round(STRONGEST_SHARE * logs.length));
    double sum = 0;
    for (int i = logs.length - kept; i < logs.length; i++) {
      sum += logs[i];
    }
    return sum / kept * Math.sqrt(sweeps / USUAL_SWEEPS);
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

  private static double[][] across(List<double[]> rows, NoiseWhitener whitener, double[] arrival) {
    double[][] left = new double[rows.size()][];
    for (int i = 0; i < left.length; i++) {
      left[i] = Wave.across(whitener.whiten(rows.get(i)), arrival);
    }
    return left;
  }

  private static double[] projected(double[][] rows, double[] direction) {
    double[] outputs = new double[rows.length];
    for (int i = 0; i < outputs.length; i++) {
      outputs[i] = Wave.dot(rows[i], direction);
    }
    return outputs;
  }

  /** Trimmed variance. */
  private static double variance(double[] values) {
    double centre = RobustStatistics.median(values.clone());
    double[] squares = new double[values.length];
    for (int i = 0; i < squares.length; i++) {
      squares[i] = (values[i] - centre) * (values[i] - centre);
    }
    Arrays.sort(squares);
    int kept = Math.max(1, (int) Math.round((1 - TRIM) * squares.length));
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
