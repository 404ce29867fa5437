package org.lonefibre.analysis.potential;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.lonefibre.analysis.conditioning.ConditionedSignal;
import org.lonefibre.signal.robust.RobustStatistics;

/**
 * Finds discharges that were missed, hidden under another unit or lost in noise: where a unit
 * pauses for longer than it usually does, all its potentials are looked for together in what the
 * other units leave. Each counts by how much likelier its usual size makes what is seen than no
 * potential does, as often as it is there.
 */
final class DischargeFiller {

  private static final double LONG = 1.5;
  private static final double LONGEST = 12;
  private static final double CLEAR = 0.6;
  private static final double NEAREST_MS = 12;
  private static final int NEIGHBOURS = 8;
  private static final int FEWEST = 10;
  private static final double USUAL_RANK = 0.15;
  private static final double SMALLEST_SIZE = 0.6;
  private static final double LARGEST_SIZE = 1.5;
  private static final double FOREIGN_ERRORS = 3;
  private static final double OFTEN = 0.3;
  private static final double MOST_SURE = 0.98;

  /** Logarithm of how much likelier a discharge must be: a pause has some hundred places for it. */
  private static final double SURE = 8;

  /** Under one, as a shape between two samples holds a little less or more than at one. */
  private static final double WORTH_LOOKING = 0.9;

  /** Of units whose discharges are seldom so sure, none is sought. */
  private static final double WORTH = 14;

  private final ConditionedSignal signal;
  private final TrackedSite site;
  private final WindowReader windows;
  private final SweepFitter fitter;

  DischargeFiller(
      ConditionedSignal signal, TrackedSite site, WindowReader windows, SweepFitter fitter) {
    this.signal = signal;
    this.site = site;
    this.windows = windows;
    this.fitter = fitter;
  }

  /** A potential that helps to find a discharge. */
  private record Witness(
      PotentialShape shape, double lag, int range, double precision, double share) {

    /** Anything larger is no potential of the unit. */
    double largest() {
      return LARGEST_SIZE + FOREIGN_ERRORS / Math.sqrt(precision);
    }

    /** Logarithm of how much likelier a size is with the potential than without it. */
    double support(double size) {
      double there = size > largest() ? 0 : precision * (size - 0.5);
      return Math.log(share * Math.exp(Math.min(there, 500)) + 1 - share);
    }
  }

  /** The unit with the hidden discharges: itself if there are none. */
  UnitTrack fill(UnitTrack unit, int unitIndex) {
    if (unit.discharges < FEWEST) {
      return unit;
    }
    List<Witness> witnesses = witnesses(unit);
    double expected =
        witnesses.stream().mapToDouble(one -> one.share() * one.precision() / 2).sum();
    if (expected < WORTH) {
      return unit;
    }
    List<UnitTrack.Place> found = new ArrayList<>();
    double[] intervals = new double[unit.discharges - 1];
    for (int d = 0; d + 1 < unit.discharges; d++) {
      intervals[d] = unit.reference[d + 1] - unit.reference[d];
    }
    for (int d = 0; d + 1 < unit.discharges; d++) {
      if (unit.segment[d] != unit.segment[d + 1]) {
        continue;
      }
      double usual = usual(intervals, d);
      if (intervals[d] > LONG * usual && intervals[d] < LONGEST * usual) {
        search(unit, unitIndex, witnesses, d, usual, found);
      }
    }
    return found.isEmpty() ? unit : unit.withMore(found);
  }

  /** An interval that most are longer than: those left by missing discharges do not raise it. */
  private static double usual(double[] intervals, int d) {
    int from = Math.max(0, d - NEIGHBOURS);
    int to = Math.min(intervals.length, d + NEIGHBOURS + 1);
    return RobustStatistics.quantile(Arrays.copyOfRange(intervals, from, to), USUAL_RANK);
  }

  private List<Witness> witnesses(UnitTrack unit) {
    double[] error = fitter.scaleErrors(unit);
    int leader = unit.leader();
    List<Witness> witnesses = new ArrayList<>();
    for (int p = 0; p < unit.potentials; p++) {
      double share = (double) unit.presentCount(p) / unit.discharges;
      if (share >= OFTEN || p == leader) {
        int range = p == leader ? 0 : (int) Math.ceil(fitter.range(unit, p) / 2);
        witnesses.add(
            new Witness(
                unit.shape[p],
                unit.lag[p],
                range,
                1 / (error[p] * error[p]),
                Math.min(MOST_SURE, share)));
      }
    }
    return witnesses;
  }

  private void search(
      UnitTrack unit,
      int unitIndex,
      List<Witness> witnesses,
      int d,
      double usual,
      List<UnitTrack.Place> found) {
    double clear = Math.max(CLEAR * usual, signal.timeBase().lengthSamples(1000 * NEAREST_MS));
    double from = unit.reference[d] + clear;
    int places = (int) (unit.reference[d + 1] - clear - from) + 1;
    if (places < 1) {
      return;
    }
    double earliest =
        witnesses.stream().mapToDouble(one -> one.lag() - one.range()).min().orElse(0);
    double latest = witnesses.stream().mapToDouble(one -> one.lag() + one.range()).max().orElse(0);
    int margin = witnesses.stream().mapToInt(one -> one.shape().length()).max().orElse(0) + 2;
    long start = (long) Math.floor(from + earliest) - margin;
    double[] window = new double[(int) Math.ceil(latest - earliest) + places + 2 * margin + 2];
    windows.read(unit.segment[d], start, window);
    site.takeOut(window, start, unitIndex);
    if (witnesses.stream()
        .noneMatch(one -> mayHold(one, window, from + one.lag() - start, places))) {
      return;
    }
    double[] support = new double[places];
    double[] size = new double[places];
    for (Witness one : witnesses) {
      double[] sizes = sizes(one, window, from + one.lag() - start, places);
      if (one.range() == 0 && Arrays.stream(sizes).max().orElse(0) > one.largest()) {
        return;
      }
      double[] supports = Arrays.stream(sizes).map(one::support).toArray();
      for (int k = 0; k < places; k++) {
        int best = k;
        for (int j = k + 1; j <= k + 2 * one.range(); j++) {
          best = supports[j] > supports[best] ? j : best;
        }
        support[k] += supports[best];
        size[k] = Math.max(size[k], sizes[best] > one.largest() ? 0 : sizes[best]);
      }
    }
    take(unit.segment[d], from, (int) clear, support, size, found);
  }

  /**
   * Whether a window holds enough somewhere for a potential of the smallest size: no projection is
   * larger than the root of the squares under the shape allows, which are quickly summed.
   */
  private static boolean mayHold(Witness one, double[] window, double first, int places) {
    int length = one.shape().length();
    int from = Math.max(0, one.shape().firstIndex(first - one.range()));
    int to = Math.min(window.length, from + places + 2 * one.range() + length);
    double enough = WORTH_LOOKING * SMALLEST_SIZE * SMALLEST_SIZE * one.shape().energy();
    double sum = 0;
    for (int k = from; k < to; k++) {
      sum += window[k] * window[k];
      if (k >= from + length) {
        sum -= window[k - length] * window[k - length];
      }
      if (sum > enough) {
        return true;
      }
    }
    return false;
  }

  /** Sizes at all places a potential may take for the references asked about. */
  private static double[] sizes(Witness one, double[] window, double first, int places) {
    double[] sizes = one.shape().projectFrom(window, first - one.range(), places + 2 * one.range());
    for (int k = 0; k < sizes.length; k++) {
      sizes[k] /= one.shape().energy();
    }
    return sizes;
  }

  /** The surest place, then the surest of those far enough from it, while any is sure. */
  private static void take(
      int segment,
      double from,
      int clear,
      double[] support,
      double[] size,
      List<UnitTrack.Place> found) {
    while (true) {
      int best = -1;
      for (int k = 0; k < support.length; k++) {
        if (support[k] >= SURE
            && size[k] >= SMALLEST_SIZE
            && (best < 0 || support[k] > support[best])) {
          best = k;
        }
      }
      if (best < 0) {
        return;
      }
      found.add(new UnitTrack.Place(from + best, segment));
      Arrays.fill(
          support,
          Math.max(0, best - clear),
          Math.min(support.length, best + Math.max(1, clear)),
          0);
    }
  }
}
