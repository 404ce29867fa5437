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
  private static final double TOO_SMALL = 0.75;
  private static final double AS_LARGE = 1.4;
  private static final double SPREADS = 3;

  private UnsureAbsences() {}

  /** Makes absences uncertain, in place, where nothing of the unit is sure. */
  static void doubt(UnitTrack unit) {
    if (Arrays.stream(unit.presence).noneMatch(Presence::isAnyAbsent)) {
      return;
    }
    double[][] usual = UsualSizes.of(unit);
    double[] usualMisfit = new double[unit.potentials];
    for (int p = 0; p < unit.potentials; p++) {
      usualMisfit[p] = Math.max(1, unit.usualMisfit(p));
    }
    for (int d = 0; d < unit.discharges; d++) {
      boolean sure = false;
      for (int p = 0; p < unit.potentials; p++) {
        sure |=
            unit.isPresent(d, p)
                && Math.abs(unit.scale[d][p] / usual[d][p] - 1) < SURE_SIZE
                && unit.misfit[d][p] < SURE_MISFITS * usualMisfit[p];
      }
      for (int p = 0; p < unit.potentials && !sure; p++) {
        if (unit.presence[d][p] == Presence.ABSENT) {
          unit.presence[d][p] = Presence.UNCERTAIN;
        }
      }
    }
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

  /**
   * Makes uncertain, in place, an absence and what another potential of the unit says near by,
   * where that one is far too small and about as large as the absent one: it may have been taken
   * for it.
   *
   * @param near how near, in samples
   */
  static void doubtTakenForAnother(List<UnitTrack> units, double near) {
    for (UnitTrack unit : units) {
      double[][] usual = UsualSizes.of(unit);
      for (int d = 0; d < unit.discharges; d++) {
        for (int p = 0; p < unit.potentials; p++) {
          for (int q = 0; q < unit.potentials && unit.presence[d][p] == Presence.ABSENT; q++) {
            if (unit.presence[d][q] != Presence.ABSENT
                && Math.abs(unit.arrival[d][q] - unit.reference[d] - unit.lag[p])
                    < Math.max(near, SPREADS * unit.spread[p])
                && isAsLarge(unit, d, q, p, usual[d])) {
              unit.presence[d][p] = Presence.UNCERTAIN;
              unit.presence[d][q] = Presence.UNCERTAIN;
            }
          }
        }
      }
    }
  }

  private static boolean isAsLarge(UnitTrack unit, int d, int q, int p, double[] usual) {
    double seen = unit.scale[d][q] * unit.shape[q].peakToPeakUv();
    double wanted = usual[p] * unit.shape[p].peakToPeakUv();
    return unit.scale[d][q] < TOO_SMALL * usual[q]
        && seen > wanted / AS_LARGE
        && seen < wanted * AS_LARGE;
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
