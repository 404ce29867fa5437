package org.lonefibre.analysis.potential;

import java.util.List;
import org.lonefibre.analysis.conditioning.ConditionedSignal;

/**
 * Doubts an arrival that lies far from its usual place with a potential of another unit beside it:
 * of two potentials that came together each may have been taken for the other.
 */
final class OddPlaces {

  private static final double FAR_SPREADS = 4;
  private static final double FAR_US = 60;
  private static final double BESIDE_US = 500;
  private static final double FOREIGN_SHARE = 0.4;

  private final TrackedSite site;
  private final double far;
  private final double beside;

  OddPlaces(ConditionedSignal signal, TrackedSite site) {
    this.site = site;
    this.far = signal.timeBase().lengthSamples(FAR_US);
    this.beside = signal.timeBase().lengthSamples(BESIDE_US);
  }

  /** Doubts arrivals in place; the site must know the units as they are. */
  void doubt(List<UnitTrack> units) {
    for (int u = 0; u < units.size(); u++) {
      UnitTrack unit = units.get(u);
      for (int d = 0; d < unit.discharges; d++) {
        for (int p = 0; p < unit.potentials; p++) {
          if (unit.isPresent(d, p) && isOdd(unit, u, d, p)) {
            unit.presence[d][p] = Presence.UNCERTAIN;
          }
        }
      }
    }
  }

  private boolean isOdd(UnitTrack unit, int u, int d, int p) {
    double at = unit.arrival[d][p];
    double off = Math.abs(at - unit.reference[d] - unit.lag[p]);
    return off > Math.max(far, FAR_SPREADS * unit.spread[p])
        && site.largestForeignUv(at - beside, at + beside, u)
            > FOREIGN_SHARE * unit.shape[p].peakToPeakUv();
  }
}
