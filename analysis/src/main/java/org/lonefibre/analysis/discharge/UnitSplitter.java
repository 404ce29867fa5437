package org.lonefibre.analysis.discharge;

import java.util.Arrays;
import java.util.Optional;
import java.util.stream.IntStream;
import org.lonefibre.analysis.conditioning.ConditionedSignal;
import org.lonefibre.signal.robust.RobustStatistics;

/**
 * Tells whether discharges that look alike come from two motor units, and keeps one of them.
 *
 * <ol>
 *   <li>The signal around each discharge, each point in units of its spread over the discharges and
 *       cut off where something foreign lies on it ({@link DischargeFeatures}).
 *   <li>Along the axes of greatest variation, the best cut into two groups.
 *   <li>The cut stands if the groups lie well apart and their rhythms are independent: discharges
 *       of one group follow those of the other far sooner than its own. One unit whose potentials
 *       come and go, or lie in two clusters, keeps one rhythm and is not split.
 *   <li>The larger group, cut again until nothing is left to cut.
 * </ol>
 *
 * <p>Thread rule: one thread at a time.
 */
final class UnitSplitter {

  private static final int AXES = 5;
  private static final double APART = 3.2;
  private static final double SOON = 0.4;
  private static final double SOON_SHARE = 0.08;
  private static final int FEWEST_SOON = 4;
  private static final double USUAL_PROBABILITY = 0.3;
  private static final double SMALLEST_GROUP = 0.1;
  private static final int ROUNDS = 6;

  private final DischargeSettings settings;
  private final ConditionedSignal signal;
  private final double refractory;

  /** What was asked last: a unit's discharges are often just the spikes that it was sought from. */
  private double[] asked = new double[0];

  private int[] askedSegments = new int[0];
  private int[] answer = new int[0];

  /** A cut of discharges into two groups: how far they lie apart, in spreads of the groups. */
  private record Cut(boolean[] upper, double apart) {}

  UnitSplitter(DischargeSettings settings, ConditionedSignal signal) {
    this.settings = settings;
    this.signal = signal;
    this.refractory = signal.timeBase().lengthSamples(settings.refractoryMs() * 1000);
  }

  /**
   * Indices of the discharges of one unit.
   *
   * @param reference places, in rising order
   * @param segment continuous segment of each
   */
  int[] one(double[] reference, int[] segment) {
    if (Arrays.equals(reference, asked) && Arrays.equals(segment, askedSegments)) {
      return answer.clone();
    }
    asked = reference.clone();
    askedSegments = segment.clone();
    answer = ofOne(reference, segment);
    return answer.clone();
  }

  private int[] ofOne(double[] reference, int[] segment) {
    int[] kept = IntStream.range(0, reference.length).toArray();
    for (int round = 0; round < ROUNDS && kept.length >= 2 * settings.fewestDischarges(); round++) {
      Optional<int[]> larger = larger(kept, reference, segment);
      if (larger.isEmpty()) {
        break;
      }
      kept = larger.get();
    }
    return kept;
  }

  private Optional<int[]> larger(int[] of, double[] reference, int[] segment) {
    double[] places = Arrays.stream(of).mapToDouble(i -> reference[i]).toArray();
    int[] segments = Arrays.stream(of).map(i -> segment[i]).toArray();
    DischargeFeatures features = DischargeFeatures.read(signal, places, segments);
    Cut best = null;
    for (int axis = 0; axis < AXES; axis++) {
      Cut cut = cut(features.nextAxis());
      if (cut.apart >= APART
          && (best == null || cut.apart > best.apart)
          && isIndependent(places, segments, cut.upper)) {
        best = cut;
      }
    }
    if (best == null) {
      return Optional.empty();
    }
    boolean[] upper = best.upper;
    int above = (int) IntStream.range(0, of.length).filter(i -> upper[i]).count();
    boolean wanted = 2 * above >= of.length;
    return Optional.of(
        IntStream.range(0, of.length).filter(i -> upper[i] == wanted).map(i -> of[i]).toArray());
  }

  /** The cut that leaves the least variance within two groups, neither very small. */
  private Cut cut(double[] scores) {
    int n = scores.length;
    int least = Math.max(settings.fewestDischarges(), (int) (SMALLEST_GROUP * n));
    double[] sorted = scores.clone();
    Arrays.sort(sorted);
    double[] sum = new double[n + 1];
    double[] squares = new double[n + 1];
    for (int i = 0; i < n; i++) {
      sum[i + 1] = sum[i] + sorted[i];
      squares[i + 1] = squares[i] + sorted[i] * sorted[i];
    }
    int at = -1;
    double within = Double.MAX_VALUE;
    for (int k = least; k <= n - least; k++) {
      double low = squares[k] - sum[k] * sum[k] / k;
      double rest = sum[n] - sum[k];
      double high = squares[n] - squares[k] - rest * rest / (n - k);
      if (low + high < within) {
        within = low + high;
        at = k;
      }
    }
    if (at < 0) {
      return new Cut(new boolean[n], 0);
    }
    double border = (sorted[at - 1] + sorted[at]) / 2;
    double distance = (sum[n] - sum[at]) / (n - at) - sum[at] / at;
    boolean[] upper = new boolean[n];
    for (int i = 0; i < n; i++) {
      upper[i] = scores[i] > border;
    }
    return new Cut(upper, distance / Math.sqrt(Math.max(within / n, 1e-30)));
  }

  /** Whether discharges of the two groups come closer together than those of either group do. */
  private boolean isIndependent(double[] places, int[] segments, boolean[] upper) {
    double usual =
        Math.min(usual(places, segments, upper, true), usual(places, segments, upper, false));
    int changes = 0;
    int soon = 0;
    for (int i = 1; i < places.length; i++) {
      double interval = places[i] - places[i - 1];
      if (segments[i] == segments[i - 1] && upper[i] != upper[i - 1] && interval > refractory / 4) {
        changes++;
        soon += interval < SOON * usual ? 1 : 0;
      }
    }
    return soon >= FEWEST_SOON && soon >= SOON_SHARE * changes;
  }

  private static double usual(double[] places, int[] segments, boolean[] upper, boolean wanted) {
    double[] intervals = new double[places.length];
    int n = 0;
    int last = -1;
    for (int i = 0; i < places.length; i++) {
      if (upper[i] == wanted) {
        if (last >= 0 && segments[last] == segments[i]) {
          intervals[n++] = places[i] - places[last];
        }
        last = i;
      }
    }
    return n < 3 ? 0 : RobustStatistics.quantile(Arrays.copyOf(intervals, n), USUAL_PROBABILITY);
  }
}
