package org.lonefibre.analysis.potential;

import java.util.Arrays;
import org.lonefibre.signal.robust.RobustStatistics;

/**
 * Leaves out discharges that were none: no potential of the unit is there, or only small ones at a
 * time that the rhythm of the unit does not allow.
 */
final class DischargeSieve {

  private static final double RHYTHM = 0.55;

  private DischargeSieve() {}

  /** The unit without such discharges: itself if there are none. */
  static UnitTrack sieve(UnitTrack unit) {
    int leader = unit.leader();
    double usual = usualInterval(unit, leader);
    int[] kept = new int[unit.discharges];
    int n = 0;
    for (int d = 0; d < unit.discharges; d++) {
      if (!isEmpty(unit, d) && fitsRhythm(unit, leader, d, RHYTHM * usual)) {
        kept[n++] = d;
      }
    }
    if (n == unit.discharges || n == 0) {
      return unit;
    }
    return unit.only(Arrays.copyOf(kept, n));
  }

  /** The unit with each discharge once: of two that lie nearer, the one that shows less goes. */
  static UnitTrack once(UnitTrack unit, double nearest) {
    int[] kept = new int[unit.discharges];
    int n = 0;
    for (int d = 0; d < unit.discharges; d++) {
      boolean again =
          n > 0
              && unit.segment[kept[n - 1]] == unit.segment[d]
              && unit.reference[d] - unit.reference[kept[n - 1]] < nearest;
      if (!again) {
        kept[n++] = d;
      } else if (presentIn(unit, d) > presentIn(unit, kept[n - 1])) {
        kept[n - 1] = d;
      }
    }
    return n == unit.discharges ? unit : unit.only(Arrays.copyOf(kept, n));
  }

  private static int presentIn(UnitTrack unit, int d) {
    int present = 0;
    for (int p = 0; p < unit.potentials; p++) {
      present += unit.isPresent(d, p) ? 1 : 0;
    }
    return present;
  }

  private static boolean isEmpty(UnitTrack unit, int d) {
    for (Presence presence : unit.presence[d]) {
      if (presence != Presence.ABSENT) {
        return false;
      }
    }
    return true;
  }

  private static boolean fitsRhythm(UnitTrack unit, int leader, int d, double nearest) {
    if (unit.presence[d][leader] != Presence.ABSENT) {
      return true;
    }
    for (int step = -1; step <= 1; step += 2) {
      for (int e = d + step; e >= 0 && e < unit.discharges; e += step) {
        if (Math.abs(unit.reference[e] - unit.reference[d]) > nearest) {
          break;
        }
        if (unit.isPresent(e, leader)) {
          return false;
        }
      }
    }
    return true;
  }

  /** An interval between discharges led by the leader that most are longer than. */
  private static double usualInterval(UnitTrack unit, int leader) {
    double[] intervals = new double[unit.discharges];
    int n = 0;
    double last = Double.NaN;
    for (int d = 0; d < unit.discharges; d++) {
      if (unit.isPresent(d, leader)) {
        if (!Double.isNaN(last)) {
          intervals[n++] = unit.reference[d] - last;
        }
        last = unit.reference[d];
      }
    }
    return n < 4 ? 0 : RobustStatistics.quantile(Arrays.copyOf(intervals, n), 0.3);
  }
}
