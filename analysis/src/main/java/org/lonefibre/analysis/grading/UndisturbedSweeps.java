package org.lonefibre.analysis.grading;

import java.util.ArrayList;
import java.util.List;
import org.lonefibre.signal.recording.TimeBase;
import org.lonefibre.signal.robust.RobustStatistics;

/**
 * Sweeps of a potential without those in which a foreign potential stands, and the shape they have
 * in common, for {@link ShapeScan}.
 *
 * <ul>
 *   <li>A sweep is left out if what it holds beyond the median sweep is far more than in the others
 *       (six deviations of the energy); at most 10 %, those with most energy. A second fibre moves
 *       in all sweeps and so is seldom left out. Engineering choices, by simulation.
 *   <li>The shape is the mean, each point of a sweep cut at three deviations of the noise about the
 *       median, and smoothed over 20 us: its slope, made white, would else be more the slope of the
 *       noise that the mean still holds.
 *   <li>Thread rule: immutable.
 * </ul>
 */
final class UndisturbedSweeps {

  private static final double FAR = 6;
  private static final double MOST_SHARE = 0.1;
  private static final double CUT = 3;
  private static final double SMOOTH_US = 20;
  private static final double SMOOTH_REACH = 4;

  /** The sweeps. */
  final List<double[]> rows = new ArrayList<>();

  /** Arrival in each against another potential; NaN where that is not there. */
  final double[] relativeSamples;

  /** What they have in common, smoothed. */
  final double[] shape;

  /** The same, not smoothed: as steep as the potential is, with more noise. */
  final double[] steepShape;

  /**
   * @param all the sweeps, aligned; one or more
   * @param relative arrival in each against another potential, NaN where that is not there
   */
  UndisturbedSweeps(List<double[]> all, double[] relative, double noiseUv, TimeBase timeBase) {
    boolean[] kept = kept(all);
    double[] of = new double[all.size()];
    for (int i = 0; i < of.length; i++) {
      if (kept[i]) {
        of[rows.size()] = relative[i];
        rows.add(all.get(i));
      }
    }
    relativeSamples = java.util.Arrays.copyOf(of, rows.size());
    steepShape = common(rows, CUT * noiseUv);
    shape = smooth(steepShape, timeBase.lengthSamples(SMOOTH_US));
  }

  private static boolean[] kept(List<double[]> all) {
    double[] median = AlignedSweeps.median(all);
    double[] energy = new double[all.size()];
    for (int i = 0; i < energy.length; i++) {
      for (int k = 0; k < median.length; k++) {
        double beyond = all.get(i)[k] - median[k];
        energy[i] += beyond * beyond;
      }
    }
    double most =
        Math.max(
            RobustStatistics.median(energy) + FAR * RobustStatistics.standardDeviation(energy),
            RobustStatistics.quantile(energy, 1 - MOST_SHARE));
    boolean[] kept = new boolean[energy.length];
    for (int i = 0; i < kept.length; i++) {
      kept[i] = energy[i] <= most;
    }
    return kept;
  }

  private static double[] common(List<double[]> rows, double mostUv) {
    double[] common = AlignedSweeps.median(rows);
    for (int k = 0; k < common.length; k++) {
      double sum = 0;
      for (double[] row : rows) {
        sum += Math.max(-mostUv, Math.min(mostUv, row[k] - common[k]));
      }
      common[k] += sum / rows.size();
    }
    return common;
  }

  /** Weighed by a bell of this deviation; beyond the ends the last value goes on. */
  private static double[] smooth(double[] wave, double samples) {
    int reach = (int) Math.ceil(SMOOTH_REACH * samples);
    double[] smooth = new double[wave.length];
    for (int k = 0; k < wave.length; k++) {
      double sum = 0;
      double weights = 0;
      for (int j = -reach; j <= reach; j++) {
        double weight = Math.exp(-0.5 * (j / samples) * (j / samples));
        sum += weight * wave[Math.max(0, Math.min(wave.length - 1, k + j))];
        weights += weight;
      }
      smooth[k] = sum / weights;
    }
    return smooth;
  }
}
