package org.lonefibre.analysis.grading;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.lonefibre.signal.recording.TimeBase;

/**
 * Whether a potential loses a step of its size in some sweeps: one of the fibres in it failed.
 *
 * <ol>
 *   <li>What is left of each sweep after the usual shape and its slope is laid beside the shape at
 *       every delay of up to 400 us: the sweeps that lack a fibre lack it there. The delay is taken
 *       at which the sweeps fall into two most clearly, and the two groups are drawn up again along
 *       the difference of their means until they stay.
 *   <li>Jitter between the fibres blurs that difference: the two ways in which sweeps of one group
 *       vary most are left out of it. The energy and the area of the sweeps, which jitter changes
 *       less, are looked at as well, and taken for the first groups too.
 *   <li>Along one of these the groups must lie {@value #APART} of their own spreads apart (one
 *       Gaussian cut in two gives 2.7), each with five sweeps, the sizes of their means differ by a
 *       seventh, and the potential pass to and fro: a needle that moved passes once.
 * </ol>
 *
 * <p>Engineering choices, by simulation.
 */
final class ComponentDropOut {

  private static final double FARTHEST_US = 400;
  private static final double STEP_US = 20;
  private static final double BEFORE_US = 350;
  private static final double AFTER_US = 450;
  private static final double APART = 3.8;
  private static final double LEAST_LOSS = 0.14;
  private static final int LEAST_SWEEPS = 5;
  private static final int LEAST_PASSAGES = 4;
  private static final int ROUNDS = 6;
  private static final int JITTER_AXES = 2;
  private static final int POWER_STEPS = 12;

  private ComponentDropOut() {}

  /**
   * A step.
   *
   * @param lossRatio size lost, over the whole size
   * @param discharges discharges in which it is lost
   */
  record Step(double lossRatio, List<Integer> discharges) {}

  static Optional<Step> find(AlignedSweeps sweeps, TimeBase timeBase) {
    int from = Math.max(0, sweeps.origin - (int) timeBase.lengthSamples(BEFORE_US));
    int to = Math.min(sweeps.length, sweeps.origin + (int) timeBase.lengthSamples(AFTER_US));
    int n = sweeps.zeroPhase.size();
    if (n < 2 * LEAST_SWEEPS) {
      return Optional.empty();
    }
    double[] shape = AlignedSweeps.median(sweeps.zeroPhase);
    double[][] left = left(sweeps.zeroPhase, shape, from, to);
    double[][] features = new double[5][n];
    for (int i = 0; i < n; i++) {
      double[] row = Arrays.copyOfRange(sweeps.zeroPhase.get(i), from, to);
      features[0][i] = Math.sqrt(Wave.dot(row, row));
      features[1][i] = Arrays.stream(row).map(Math::abs).sum();
    }
    features[2] = alongDifference(left, firstSplit(left, shape, from, to, timeBase));
    features[3] = alongDifference(left, Split.of(features[0]).upper);
    features[4] = alongDifference(left, Split.of(features[1]).upper);
    Step clearest = null;
    double most = APART;
    for (double[] feature : features) {
      Split split = Split.of(feature);
      double apart = split.apart(1e-9);
      if (apart > most) {
        Step step = step(sweeps, split.upper, from, to);
        if (step != null) {
          clearest = step;
          most = apart;
        }
      }
    }
    return Optional.ofNullable(clearest);
  }

  /** The sweeps along the difference of two groups, which are drawn up again until they stay. */
  private static double[] alongDifference(double[][] left, boolean[] first) {
    boolean[] group = first;
    double[] along = new double[left.length];
    for (int round = 0; round < ROUNDS; round++) {
      double[] way = difference(left, group);
      withoutJitter(way, left, group);
      for (int i = 0; i < along.length; i++) {
        along[i] = Wave.dot(left[i], way);
      }
      group = Split.of(along).upper;
      if (count(group) == 0 || count(group) == along.length) {
        break;
      }
    }
    return along;
  }

  /** What is lost between two groups, if it is a step of the size that comes and goes. */
  private static @Nullable Step step(AlignedSweeps sweeps, boolean[] group, int from, int to) {
    int n = group.length;
    int inside = count(group);
    if (Math.min(inside, n - inside) < LEAST_SWEEPS || passages(group) < LEAST_PASSAGES) {
      return null;
    }
    double one = size(sweeps.zeroPhase, group, true, from, to);
    double other = size(sweeps.zeroPhase, group, false, from, to);
    double loss = Math.abs(one - other) / Math.max(one, other);
    if (loss < LEAST_LOSS) {
      return null;
    }
    List<Integer> discharges = new ArrayList<>();
    for (int i = 0; i < n; i++) {
      if (group[i] == one < other) {
        discharges.add(sweeps.discharge.get(i));
      }
    }
    return new Step(loss, List.copyOf(discharges));
  }

  /** Sweeps without the usual shape, and without what a shift of it would leave. */
  private static double[][] left(List<double[]> rows, double[] shape, int from, int to) {
    double[] slope = new double[to - from];
    for (int k = 0; k < slope.length; k++) {
      int at = Math.max(1, Math.min(shape.length - 2, from + k));
      slope[k] = (shape[at + 1] - shape[at - 1]) / 2;
    }
    double energy = Math.max(Wave.dot(slope, slope), 1e-12);
    double[][] left = new double[rows.size()][to - from];
    for (int i = 0; i < left.length; i++) {
      for (int k = 0; k < left[i].length; k++) {
        left[i][k] = rows.get(i)[from + k] - shape[from + k];
      }
      double shift = Wave.dot(left[i], slope) / energy;
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
      double norm = Math.sqrt(Math.max(Wave.dot(direction, direction), 1e-12));
      for (int i = 0; i < left.length; i++) {
        along[i] = Wave.dot(left[i], direction) / norm;
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
    double[] way = mean(left, group, true);
    subtract(way, mean(left, group, false), 1);
    normalise(way);
    return way;
  }

  /**
   * Takes out of a direction the ways in which the sweeps of a group vary most among themselves:
   * jitter between the fibres.
   */
  private static void withoutJitter(double[] way, double[][] left, boolean[] group) {
    double[][] within = new double[left.length][];
    double[][] mean = {mean(left, group, false), mean(left, group, true)};
    for (int i = 0; i < left.length; i++) {
      within[i] = left[i].clone();
      subtract(within[i], mean[group[i] ? 1 : 0], 1);
    }
    for (int axis = 0; axis < JITTER_AXES; axis++) {
      double[] most = mostVaried(within);
      for (double[] row : within) {
        subtract(row, most, Wave.dot(row, most));
      }
      subtract(way, most, Wave.dot(way, most));
    }
    normalise(way);
  }

  private static double[] mostVaried(double[][] rows) {
    double[] axis = rows[0].clone();
    for (double[] row : rows) {
      if (Wave.dot(row, row) > Wave.dot(axis, axis)) {
        axis = row.clone();
      }
    }
    for (int step = 0; step < POWER_STEPS; step++) {
      normalise(axis);
      double[] next = new double[axis.length];
      for (double[] row : rows) {
        subtract(next, row, -Wave.dot(row, axis));
      }
      axis = next;
    }
    normalise(axis);
    return axis;
  }

  private static double[] mean(double[][] rows, boolean[] group, boolean wanted) {
    double[] mean = new double[rows[0].length];
    int n = 0;
    for (int i = 0; i < rows.length; i++) {
      if (group[i] == wanted) {
        subtract(mean, rows[i], -1);
        n++;
      }
    }
    for (int k = 0; k < mean.length; k++) {
      mean[k] /= Math.max(1, n);
    }
    return mean;
  }

  private static void subtract(double[] from, double[] what, double factor) {
    for (int k = 0; k < from.length; k++) {
      from[k] -= factor * what[k];
    }
  }

  private static void normalise(double[] vector) {
    double norm = Math.sqrt(Math.max(Wave.dot(vector, vector), 1e-12));
    for (int k = 0; k < vector.length; k++) {
      vector[k] /= norm;
    }
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
}
