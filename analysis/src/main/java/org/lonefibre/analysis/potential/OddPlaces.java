package org.lonefibre.analysis.potential;

import java.util.List;
import org.lonefibre.analysis.conditioning.ConditionedSignal;

/**
 * Doubts an arrival that lies far from its usual place where several units fire: of two potentials
 * that came together each may have been taken for the other, and a whole discharge for one of
 * another unit. What is as large as its neighbours and as well explained is the potential itself,
 * however far off: jitter has long tails, and without them it is too small. Where one unit is
 * alone, an odd place is its own and stays.
 */
final class OddPlaces {

  private static final double FAR_SPREADS = 4;
  private static final double FARTHER_SPREADS = 6;
  private static final double FAR_US = 60;
  private static final double BESIDE_US = 500;
  private static final double FOREIGN_SHARE = 0.4;

  /** What lies so far off oftener belongs to the unit: it may have two usual places. */
  private static final double RARELY = 0.06;

  /** Where noise leaves the size less sure than this it does not tell whose a potential is. */
  private static final double OWN_SIZE = 0.05;

  private static final double OWN_MISFITS = 1.5;

  private final TrackedSite site;
  private final SweepFitter fitter;
  private final double far;
  private final double beside;

  OddPlaces(ConditionedSignal signal, TrackedSite site, SweepFitter fitter) {
    this.site = site;
    this.fitter = fitter;
    this.far = signal.timeBase().lengthSamples(FAR_US);
    this.beside = signal.timeBase().lengthSamples(BESIDE_US);
  }

  /** Doubts arrivals in place; the site must know the units as they are. */
  void doubt(List<UnitTrack> units) {
    for (int u = 0; u < units.size(); u++) {
      UnitTrack unit = units.get(u);
      double[][] usual = UsualSizes.of(unit);
      double[] error = fitter.scaleErrors(unit);
      for (int p = 0; p < unit.potentials; p++) {
        boolean rare = units.size() > 1 && isRarelyFar(unit, p);
        double wellExplained = OWN_MISFITS * Math.max(1, unit.usualMisfit(p));
        for (int d = 0; d < unit.discharges; d++) {
          if (!unit.isPresent(d, p)) {
            continue;
          }
          boolean itself =
              error[p] < OWN_SIZE
                  && Math.abs(unit.scale[d][p] / usual[d][p] - 1) < OWN_SIZE
                  && unit.misfit[d][p] < wellExplained;
          if (rare && !itself && isFarther(unit, d, p) || isOdd(unit, u, d, p)) {
            unit.presence[d][p] = Presence.UNCERTAIN;
          }
        }
      }
    }
  }

  private boolean isRarelyFar(UnitTrack unit, int p) {
    int farther = 0;
    for (int d = 0; d < unit.discharges; d++) {
      farther += unit.isPresent(d, p) && isFarther(unit, d, p) ? 1 : 0;
    }
    return farther <= RARELY * unit.presentCount(p);
  }

  private boolean isFarther(UnitTrack unit, int d, int p) {
    return off(unit, d, p) > Math.max(far, FARTHER_SPREADS * unit.spread[p]);
  }

  private boolean isOdd(UnitTrack unit, int u, int d, int p) {
    double at = unit.arrival[d][p];
    return off(unit, d, p) > Math.max(far, FAR_SPREADS * unit.spread[p])
        && site.largestForeignUv(at - beside, at + beside, u)
            > FOREIGN_SHARE * unit.shape[p].peakToPeakUv();
  }

  private static double off(UnitTrack unit, int d, int p) {
    return Math.abs(unit.arrival[d][p] - unit.reference[d] - unit.lag[p]);
  }
}
