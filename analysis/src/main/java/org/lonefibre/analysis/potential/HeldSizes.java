package org.lonefibre.analysis.potential;

import java.util.Arrays;
import org.lonefibre.signal.robust.RobustStatistics;

/**
 * How near the usual size the sizes of each potential of a unit lie, beyond what noise makes of
 * them. Where shapes overlap, size, arrival and shape can hardly be told apart; the sizes of a
 * fibre that is steady need not be asked anew in every discharge.
 *
 * <ul>
 *   <li>Spreads and errors over the usual size, which is 1.
 *   <li>Thread rule: immutable.
 * </ul>
 */
final class HeldSizes {

  /** Nothing is known: any size may be. */
  static final double WEAK_SPREAD = 0.25;

  private static final double LEAST_SPREAD = 0.05;
  private static final int FEWEST = 20;

  /** A size that is believed so far need not be held. */
  private static final double MOST_TRUST = 0.9;

  private final double[] spread;
  private final double[] trust;

  private HeldSizes(double[] spread, double[] trust) {
    this.spread = spread;
    this.trust = trust;
  }

  /** Sizes of which nothing is known. */
  static HeldSizes unknown(int potentials) {
    double[] spread = new double[potentials];
    double[] trust = new double[potentials];
    Arrays.fill(spread, WEAK_SPREAD);
    Arrays.fill(trust, 1);
    return new HeldSizes(spread, trust);
  }

  /**
   * What sizes that were measured freely say.
   *
   * @param usual usual size {@code [discharge][potential]}
   * @param error what noise makes of the size of each potential, alone
   */
  static HeldSizes of(UnitTrack unit, double[][] usual, double[] error) {
    HeldSizes sizes = unknown(unit.potentials);
    for (int p = 0; p < unit.potentials; p++) {
      double[] ratio = new double[unit.discharges];
      double[] widening = new double[unit.discharges];
      int n = 0;
      for (int d = 0; d < unit.discharges; d++) {
        if (unit.isPresent(d, p)) {
          widening[n] = unit.widening[d][p];
          ratio[n++] = unit.scale[d][p] / usual[d][p];
        }
      }
      if (n >= FEWEST) {
        double noise = error[p] * RobustStatistics.median(Arrays.copyOf(widening, n));
        double seen = RobustStatistics.standardDeviation(Arrays.copyOf(ratio, n));
        double beyond = Math.sqrt(Math.max(0, seen * seen - noise * noise));
        double spread = Math.min(WEAK_SPREAD, Math.max(LEAST_SPREAD, beyond));
        sizes.spread[p] = spread;
        sizes.trust[p] = spread * spread / (spread * spread + noise * noise);
      }
    }
    return sizes;
  }

  /** Those of some potentials, and of more of which nothing is known. */
  HeldSizes kept(int[] kept, int potentials) {
    HeldSizes fewer = unknown(potentials);
    for (int k = 0; k < kept.length; k++) {
      fewer.spread[k] = spread[kept[k]];
      fewer.trust[k] = trust[kept[k]];
    }
    return fewer;
  }

  double spread(int potential) {
    return spread[potential];
  }

  /** Whether to hold the size of a potential changes anything. */
  boolean isHeld(int potential) {
    return trust[potential] < MOST_TRUST;
  }

  /** The likeliest size, by what was measured and what is usual. */
  double likeliest(int potential, double measured, double usual) {
    return usual + trust[potential] * (measured - usual);
  }
}
