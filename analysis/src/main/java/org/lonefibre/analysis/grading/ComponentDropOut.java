package org.lonefibre.analysis.grading;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.lonefibre.signal.recording.TimeBase;

/**
 * Whether a potential loses a step of its size in some sweeps: one of the fibres in it failed.
 *
 * <ol>
 *   <li>What is left of each sweep after the usual shape and its slope is laid beside the shape at
 *       every delay of up to 400 us: the sweeps that lack a fibre lack it there. The delay is taken
 *       at which the sweeps fall into two most clearly.
 *   <li>The two groups are drawn up again by the difference of their means, until they stay.
 *   <li>A step is found if along that difference the groups lie {@value #APART} of their own spreads
 *       apart, the smaller potential is the rarer or not, but each has five sweeps, the sizes differ
 *       by a seventh, and the potential passes to and fro: a needle that moved passes once.
 * </ol>
 *
 * <p>Engineering choices, by simulation.
 */
final class ComponentDropOut {

  private static final double FARTHEST_US = 400;
  private static final double STEP_US = 20;
  private static final double BEFORE_US = 350;
  private static final double AFTER_US = 450;
  private static final double APART = 6;
  private static final double LEAST_LOSS = 0.14;
  private static final int LEAST_SWEEPS = 5;
  private static final int LEAST_PASSAGES = 4;
  private static final int ROUNDS = 6;

  private ComponentDropOut() {}

  /**
   * A step.
   *
   * @param lossRatio size lost, over the whole size
   * @param discharges discharges in which it is lost
   */
  record Step(double lossRatio, List<Integer> discharges) {}

  static Optional<Step> find(AlignedSweeps sweeps, double noiseUv, TimeBase timeBase) {
    int from = Math.max(0, sweeps.origin - (int) timeBase.lengthSamples(BEFORE_US));
    int to = Math.min(sweeps.length, sweeps.origin + (int) timeBase.lengthSamples(AFTER_US));
    int n = sweeps.zeroPhase.size();
    if (n < 2 * LEAST_SWEEPS) {
      return Optional.empty();
    }
    double[] shape = AlignedSweeps.median(sweeps.zeroPhase);
    double[][] left = left(sweeps.zeroPhase, shape, from, to);
    boolean[] lost = firstSplit(left, shape, from, to, timeBase);
    double[] along = new double[n];
    for (int round = 0; round < ROUNDS; round++) {
      double[] way = difference(left, lost);
      for (int i = 0; i < n; i++) {
        along[i] = dot(left[i], way);
      }
      boolean[] next = Split.of(along).upper;
      if (count(next) == 0 || count(next) == n) {
        return Optional.empty();
      }
      lost = next;
    }
    if (Split.of(along).apart(noiseUv) < APART) {
      return Optional.empty();
    }
    double one = size(sweeps.zeroPhase, lost, true, from, to);
    double other = size(sweeps.zeroPhase, lost, false, from, to);
    if (one > other) {
      for (int i = 0; i < n; i++) {
        lost[i] = !lost[i];
      }
    }
    double loss = Math.abs(one - other) / Math.max(one, other);
    if (loss < LEAST_LOSS
        || Math.min(count(lost), n - count(lost)) < LEAST_SWEEPS
        || passages(lost) < LEAST_PASSAGES) {
      return Optional.empty();
    }
    List<Integer> discharges = new ArrayList<>();
    for (int i = 0; i < n; i++) {
      if (lost[i]) {
        discharges.add(sweeps.discharge.get(i));
      }
    }
    return Optional.of(new Step(loss, List.copyOf(discharges)));
  }

  /** Sweeps without the usual shape, and without what a shift of it would leave. */
  private static double[][] left(List<double[]> rows, double[] shape, int from, int to) {
    double[] slope = new double[to - from];
    for (int k = 0; k < slope.length; k++) {
      int at = Math.max(1, Math.min(shape.length - 2, from + k));
      slope[k] = (shape[at + 1] - shape[at - 1]) / 2;
    }
    double energy = Math.max(dot(slope, slope), 1e-12);
    double[][] left = new double[rows.size()][to - from];
    for (int i = 0; i < left.length; i++) {
      for (int k = 0; k < left[i].length; k++) {
        left[i][k] = rows.get(i)[from + k] - shape[from + k];
      }
      double shift = dot(left[i], slope) / energy;
      for (int k = 0; k < left[i].length; k++) {
        left[i][k] -= shift * slope[k];
      }
    }
    return left;
  }

  /** The sweeps of one group, at the delay at which there are two most clearly. */
  private static boolean[] firstSplit(
      double[][] left, double[] shape, int from, int to, TimeBase timeBase) {
    boolean[] best = new boolean[left.length];
    double most = -1;
    double[] along = new double[left.length];
    for (double delay = -FARTHEST_US; delay <= FARTHEST_US; delay += STEP_US) {
      int shift = (int) Math.round(timeBase.lengthSamples(delay));
      double[] direction = new double[to - from];
      for (int k = 0; k < direction.length; k++) {
        int at = from + k - shift;
        direction[k] = at >= 0 && at < shape.length ? shape[at] : 0;
      }
      double norm = Math.sqrt(Math.max(dot(direction, direction), 1e-12));
      for (int i = 0; i < left.length; i++) {
        along[i] = dot(left[i], direction) / norm;
      }
      Split split = Split.of(along);
      double apart = split.apart(1e-9);
      if (apart > most) {
        most = apart;
        best = split.upper;
      }
    }
    return best;
  }

  /** Unit vector from the mean of the others to the mean of the group. */
  private static double[] difference(double[][] left, boolean[] group) {
    double[] way = new double[left[0].length];
    int inside = count(group);
    for (int i = 0; i < left.length; i++) {
      double weight = group[i] ? 1.0 / inside : -1.0 / (left.length - inside);
      for (int k = 0; k < way.length; k++) {
        way[k] += weight * left[i][k];
      }
    }
    double norm = Math.sqrt(Math.max(dot(way, way), 1e-12));
    for (int k = 0; k < way.length; k++) {
      way[k] /= norm;
    }
    return way;
  }

  /** Peak to peak of the mean of a group. */
  private static double size(
      List<double[]> rows, boolean[] group, boolean wanted, int from, int to) {
    double low = Double.POSITIVE_INFINITY;
    double high = Double.NEGATIVE_INFINITY;
    for (int k = from; k < to; k++) {
      double sum = 0;
      int n = 0;
      for (int i = 0; i < group.length; i++) {
        if (group[i] == wanted) {
          sum += rows.get(i)[k];
          n++;
        }
      }
      low = Math.min(low, sum / n);
      high = Math.max(high, sum / n);
    }
    return high - low;
  }

  private static int passages(boolean[] lost) {
    int passages = 0;
    for (int i = 1; i < lost.length; i++) {
      passages += lost[i] != lost[i - 1] ? 1 : 0;
    }
    return passages;
  }

  private static int count(boolean[] group) {
    int count = 0;
    for (boolean inside : group) {
      count += inside ? 1 : 0;
    }
    return count;
  }

  private static double dot(double[] a, double[] b) {
    double sum = 0;
    for (int k = 0; k < a.length; k++) {
      sum += a[k] * b[k];
    }
    return sum;
  }
}
