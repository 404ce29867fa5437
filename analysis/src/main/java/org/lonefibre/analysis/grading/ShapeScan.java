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
 * and width count as uncertain, the more the more they are seen to vary, and so does the width of
 * the potentials beside it, whose tails reach into it; the rest is projected on the slope of the
 * shape at every delay. {@link SecondFibreLikelihood} says how much likelier these projections are
 * with a second fibre than without.
 *
 * <ul>
 *   <li>Noise of a projection is what the baseline of the same sweeps gives, taken in the same way,
 *       so that activity in the distance counts as noise; what size and width add, of which the
 *       baseline has nothing; and what alignment, and a neighbour taken out, may leave.
 *   <li>The projections are compared with the arrival of the potential against another one of the
 *       unit: what does not follow the potential moves the other way in what is aligned on it.
 *       Noise knows nothing of arrivals, so this finds smaller fibres than variance alone does.
 * </ul>
 */
final class ShapeScan {

  private static final double FARTHEST_US = 500;
  private static final double STEP_US = 25;
  private static final double LEAST_DIRECTION = 0.05;
  private static final double CUT = 3;
  static final int LEAST_FOLLOWED = 15;

  /** Odds of e^12 to one: more tells nothing more. */
  private static final double MOST_EVIDENCE = 12;

  private final List<Place> places = new ArrayList<>();

  /**
   * What was found at one delay.
   *
   * @param delayUs the delay
   * @param varianceRatio variance over that of noise
   * @param movingUs movement of a fibre as large as the potential that would make the variance
   *     beyond it
   * @param followsSd how much it moves against the arrivals, over what chance gives; 0 if the
   *     potential is alone
   * @param shareOfArrival by how much the arrival of the potential is drawn along with a fibre at
   *     this delay as large as the potential
   * @param aloneLog logarithm of how much likelier it is with a second fibre, arrivals not regarded
   * @param log the same with the arrivals, if another potential tells of them
   */
  record Place(
      double delayUs,
      double varianceRatio,
      double movingUs,
      double followsSd,
      double shareOfArrival,
      double aloneLog,
      double log) {}

  /**
   * Scans a potential.
   *
   * @param usual its sweeps
   * @param baseline stretches beside them, as long
   * @param widenings what other potentials add when they widen, per unit of their width
   * @param noiseUv standard deviation of the noise
   * @param correlation its correlation at 0, 1, ... samples
   * @param leftoverUv deviation of what alignment and taking out of neighbours may leave
   */
  ShapeScan(
      UndisturbedSweeps usual,
      List<double[]> baseline,
      List<double[]> widenings,
      double noiseUv,
      double[] correlation,
      double leftoverUv,
      TimeBase timeBase) {
    double[] slope = Wave.slope(usual.shape);
    double[] steepSlope = Wave.slope(usual.steepShape);
    ProjectedSweeps sweeps = new ProjectedSweeps(usual.rows, baseline);
    double[][] changes =
        new ShapeChanges(sweeps, usual.shape, noiseUv, correlation).with(widenings);
    NoiseWhitener whitener = new NoiseWhitener(noiseUv, correlation, slope.length, changes);
    double[] arrival = whitener.whiten(slope);
    double steepness = Math.max(Wave.norm(arrival), 1e-12);
    arrival = Wave.times(1 / steepness, arrival);
    double leftover = square(leftoverUv / Math.max(noiseUv, 1e-6));
    double[] relative = centred(usual.relativeSamples);
    SecondFibreLikelihood alone = SecondFibreLikelihood.alone();
    SecondFibreLikelihood likelihood =
        knownCount(relative) < LEAST_FOLLOWED
            ? alone
            : SecondFibreLikelihood.beside(Wave.times(timeBase.durationUs(1), relative));
    for (double delay = -FARTHEST_US; delay <= FARTHEST_US; delay += STEP_US) {
      int shift = (int) Math.round(timeBase.lengthSamples(delay));
      double[] moved = whitener.whiten(Wave.later(slope, shift));
      double[] direction = Wave.across(moved, arrival);
      double norm = Wave.norm(direction);
      if (norm < LEAST_DIRECTION * steepness) {
        continue;
      }
      double[] weights = whitener.weights(Wave.times(1 / norm, direction));
      double[] outputs = sweeps.outputs(weights);
      double noise =
          Math.max(
              1e-12,
              sweeps.noise(weights)
                  + Arrays.stream(changes).mapToDouble(c -> square(Wave.dot(c, weights))).sum()
                  + leftover);
      double ratio = (ProjectedSweeps.variance(outputs) + leftover) / noise;
      // A second fibre is as steep as the potential, not as its smoothed shape.
      double steep = Math.max(norm, Wave.dot(Wave.later(steepSlope, shift), weights));
      double noiseUs = timeBase.durationUs(Math.sqrt(noise) / steep);
      double[] moves = Wave.times(1 / Math.sqrt(noise), fromMedian(outputs));
      double aloneLog = alone.logRatio(moves, noiseUs);
      places.add(
          new Place(
              delay,
              ratio,
              noiseUs * Math.sqrt(Math.max(0, ratio - 1)),
              follows(relative, outputs) * Math.sqrt((noise - leftover) / noise),
              Wave.dot(moved, arrival) / steepness,
              aloneLog,
              likelihood == alone ? aloneLog : likelihood.logRatio(moves, noiseUs)));
    }
  }

  /**
   * Evidence for a second fibre, whatever its delay: logarithm of the mean likelihood ratio over
   * the delays, between -12 and 12; below 0 it speaks for one fibre.
   *
   * @param follows whether movement against the arrivals is weighed as well
   */
  double evidence(boolean follows) {
    double[] logs = places.stream().mapToDouble(follows ? Place::log : Place::aloneLog).toArray();
    return Math.max(-MOST_EVIDENCE, Math.min(MOST_EVIDENCE, SecondFibreLikelihood.logMean(logs)));
  }

  /** Strongest movement against the arrivals, over chance; 0 if the potential is alone. */
  double followsSd() {
    return places.stream().mapToDouble(Place::followsSd).max().orElse(0);
  }

  /** Where the evidence for a second fibre is strongest. */
  Place strongest() {
    return places.stream()
        .max(Comparator.comparingDouble(Place::log))
        .orElse(new Place(0, 1, 0, 0, 0, 0, 0));
  }

  private static double square(double value) {
    return value * value;
  }

  private static int knownCount(double[] relative) {
    return (int) Arrays.stream(relative).filter(r -> !Double.isNaN(r)).count();
  }

  private static double[] fromMedian(double[] values) {
    double median = RobustStatistics.median(values);
    return Arrays.stream(values).map(v -> v - median).toArray();
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
