package org.lonefibre.analysis.potential;

import java.util.Arrays;
import java.util.stream.IntStream;
import org.lonefibre.signal.recording.TimeBase;
import org.lonefibre.signal.robust.RobustStatistics;

/**
 * A small potential that comes too near a large one in some discharges may be taken for absent
 * there: the shape of the large one then holds what the small one puts there, and says so again. So
 * it is tried the other way: the potential placed in all discharges, shapes and arrivals anew from
 * there. What leaves clearly less of the signal is kept.
 *
 * <ul>
 *   <li>Thread rule: one thread at a time.
 * </ul>
 */
final class NearAbsences {

  private static final double NEAR_US = 500;
  private static final double FEWEST_ABSENT = 0.05;
  private static final double FEWEST_PRESENT = 0.3;
  private static final int MOST_ROUNDS = 4;
  private static final int SEPARATIONS = 4;

  /** What each potential found must explain, over the noise in one sample: more than chance. */
  private static final double WORTH = 10;

  /** The same for each discharge, for what is other without more being found. */
  private static final double LEAST_GAIN = 3;

  private final UnitLeavings leavings;
  private final UnitWorkers workers;
  private final double near;

  NearAbsences(TimeBase timeBase, UnitLeavings leavings, UnitWorkers workers) {
    this.leavings = leavings;
    this.workers = workers;
    this.near = timeBase.lengthSamples(NEAR_US);
  }

  /** The unit itself, or what explains its discharges better. */
  UnitTrack withThem(UnitTrack first, int u) {
    UnitTrack unit = first;
    for (int p = 0; p < unit.potentials; p++) {
      UnitTrack before = null;
      for (int round = 0; round < MOST_ROUNDS && unit != before && p < unit.potentials; round++) {
        before = unit;
        unit = isWorthTrying(unit, p) ? tried(unit, u, p) : unit;
      }
    }
    return unit;
  }

  private boolean isWorthTrying(UnitTrack unit, int p) {
    int present = unit.presentCount(p);
    int larger = larger(unit, p);
    return larger >= 0
        && unit.presentCount(larger) >= FEWEST_PRESENT * unit.discharges
        && unit.discharges - present >= FEWEST_ABSENT * unit.discharges
        && present >= FEWEST_PRESENT * unit.discharges;
  }

  /** First without what may be no potential: where that explains more, it is none. */
  private UnitTrack tried(UnitTrack unit, int u, int p) {
    int[] all = IntStream.range(0, unit.potentials).toArray();
    int[] fewer = withoutGhosts(unit, p);
    UnitTrack better = fewer.length == all.length ? unit : everywhere(unit, u, p, fewer);
    return better == unit ? everywhere(unit, u, p, all) : better;
  }

  /** The unit or, if that leaves clearly less, some of its potentials, one in all discharges. */
  private UnitTrack everywhere(UnitTrack unit, int u, int p, int[] kept) {
    UnitTrack other = unit.keeping(kept).copy();
    int moved = Arrays.binarySearch(kept, p);
    place(other, u, moved, larger(other, moved));
    OverlappingSweeps sweeps = workers.separator().sweeps(other, u);
    for (int k = 0; k < SEPARATIONS; k++) {
      other.takeShapes(sweeps.separated(other, workers.separator().weights(other)));
    }
    workers.fitter().fit(other, u);
    workers.polishAgain(other, u);
    int more = other.presentCount(moved) - unit.presentCount(p);
    double least = Math.max(LEAST_GAIN * unit.discharges, WORTH * more);
    return leavings.of(unit, u, unit.lag) - leavings.of(other, u, other.lag) > least ? other : unit;
  }

  /** All but smaller potentials about one: they may be what it leaves where it is not found. */
  private int[] withoutGhosts(UnitTrack unit, int p) {
    return IntStream.range(0, unit.potentials)
        .filter(
            q ->
                q == p
                    || Math.abs(unit.lag[q] - unit.lag[p]) > near
                    || unit.shape[q].peakToPeakUv() > unit.shape[p].peakToPeakUv())
        .toArray();
  }

  /** The largest potential near by that is larger, or -1. */
  private int larger(UnitTrack unit, int p) {
    int largest = p;
    for (int q = 0; q < unit.potentials; q++) {
      boolean isNear = Math.abs(unit.lag[q] - unit.lag[p]) < near;
      if (isNear && unit.shape[q].peakToPeakUv() > unit.shape[largest].peakToPeakUv()) {
        largest = q;
      }
    }
    return largest == p ? -1 : largest;
  }

  /** Puts a potential where it is likeliest in all discharges that have the larger one. */
  private void place(UnitTrack unit, int u, int p, int larger) {
    int margin = 2 * unit.shape[p].length();
    double apart = unit.lag[p] - unit.lag[larger];
    for (int d = 0; d < unit.discharges; d++) {
      if (!unit.isPresent(d, p) && unit.isPresent(d, larger)) {
        double expected = unit.arrival[d][larger] + apart;
        long start = (long) Math.floor(expected) - margin;
        double[] left = leavings.of(unit, u, d, start, 2 * margin);
        unit.arrival[d][p] = start + workers.fitter().scan(unit, p, left, expected - start);
        unit.scale[d][p] = 1;
        unit.presence[d][p] = Presence.PRESENT;
      }
    }
    unit.spread[p] =
        RobustStatistics.standardDeviation(
            IntStream.range(0, unit.discharges)
                .filter(d -> unit.isPresent(d, p) && unit.isPresent(d, larger))
                .mapToDouble(d -> unit.arrival[d][p] - unit.arrival[d][larger])
                .toArray());
  }
}
