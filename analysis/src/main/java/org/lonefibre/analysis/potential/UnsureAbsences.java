package org.lonefibre.analysis.potential;

import java.util.Arrays;
import java.util.List;

/**
 * A potential is called absent only where another of the unit is surely there: as large as usual
 * and no worse explained. Else the discharge may be another unit's.
 */
final class UnsureAbsences {

  private static final double SURE_SIZE = 0.2;
  private static final double SURE_MISFITS = 3;
  private static final double FOREIGN_SHARE = 0.6;
  private static final double SPREADS = 4;
  private static final double LARGER = 0.1;
  private static final double HELD = 0.5;

  private UnsureAbsences() {}

  /**
   * Makes absences uncertain, in place, where nothing of the unit is sure, or what lies near is
   * not.
   *
   * @param near how near two potentials may be taken for one, in samples
   */
  static void doubt(UnitTrack unit, double near) {
    if (Arrays.stream(unit.presence).noneMatch(Presence::isAnyAbsent)) {
      return;
    }
    double[][] usual = UsualSizes.of(unit);
    double[] usualMisfit = new double[unit.potentials];
    for (int p = 0; p < unit.potentials; p++) {
      usualMisfit[p] = Math.max(1, unit.usualMisfit(p));
    }
    for (int d = 0; d < unit.discharges; d++) {
      boolean[] sure = new boolean[unit.potentials];
      boolean any = false;
      for (int p = 0; p < unit.potentials; p++) {
        sure[p] =
            unit.isPresent(d, p)
                && Math.abs(unit.scale[d][p] / usual[d][p] - 1) < SURE_SIZE
                && unit.misfit[d][p] < SURE_MISFITS * usualMisfit[p];
        any |= sure[p];
      }
      for (int p = 0; p < unit.potentials; p++) {
        if (unit.presence[d][p] == Presence.ABSENT
            && (!any || mayHide(unit, d, p, sure, usual[d], near))) {
          unit.presence[d][p] = Presence.UNCERTAIN;
        }
      }
    }
  }

  /** Whether another potential, where this one may come, is not surely alone there. */
  private static boolean mayHide(
      UnitTrack unit, int d, int potential, boolean[] sure, double[] usual, double near) {
    double reach = near + SPREADS * unit.spread[potential];
    double least = FOREIGN_SHARE * unit.shape[potential].peakToPeakUv();
    for (int q = 0; q < unit.potentials; q++) {
      if (q != potential
          && (!sure[q] || holds(unit, d, q, usual[q], potential))
          && unit.presence[d][q] != Presence.ABSENT
          && unit.shape[q].peakToPeakUv() > least
          && Math.abs(unit.lag[q] - unit.lag[potential]) < reach) {
        return true;
      }
    }
    return false;
  }

  /** Whether one potential is larger than usual by what the other would add. */
  private static boolean holds(UnitTrack unit, int d, int one, double usual, int other) {
    double more = unit.scale[d][one] / usual - 1;
    return more > LARGER
        && more * unit.shape[one].peakToPeakUv() > HELD * unit.shape[other].peakToPeakUv();
  }

  /**
   * Makes absences uncertain, in place, where a potential of another unit that is itself uncertain
   * may lie on them: one of the two may have been taken for the other.
   *
   * @param near how near, in samples
   */
  static void doubtHidden(List<UnitTrack> units, double near) {
    for (UnitTrack unit : units) {
      for (int d = 0; d < unit.discharges; d++) {
        for (int p = 0; p < unit.potentials; p++) {
          if (unit.presence[d][p] == Presence.ABSENT && isHidden(units, unit, d, p, near)) {
            unit.presence[d][p] = Presence.UNCERTAIN;
          }
        }
      }
    }
  }

  private static boolean isHidden(
      List<UnitTrack> units, UnitTrack unit, int discharge, int potential, double near) {
    double expected = unit.reference[discharge] + unit.lag[potential];
    double least = FOREIGN_SHARE * unit.shape[potential].peakToPeakUv();
    for (UnitTrack other : units) {
      for (int q = 0; q < other.potentials && other != unit; q++) {
        if (other.shape[q].peakToPeakUv() > least) {
          int e = other.firstAtOrAfter(expected - other.lag[q] - near);
          for (; e < other.discharges && other.reference[e] + other.lag[q] < expected + near; e++) {
            if (other.presence[e][q] == Presence.UNCERTAIN) {
              return true;
            }
          }
        }
      }
    }
    return false;
  }
}
