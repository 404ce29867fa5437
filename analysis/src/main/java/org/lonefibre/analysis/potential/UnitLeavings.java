package org.lonefibre.analysis.potential;

import java.util.Arrays;
import org.lonefibre.analysis.conditioning.ConditionedSignal;

/**
 * What a unit leaves of the signal around its discharges once all that is known to be there is
 * taken out.
 *
 * <ul>
 *   <li>Thread rule: one thread at a time.
 * </ul>
 */
final class UnitLeavings {

  /** What one discharge says at most, over what noise leaves of it. */
  private static final double LOUDEST = 400;

  private final ConditionedSignal signal;
  private final TrackedSite site;
  private final WindowReader windows;

  UnitLeavings(ConditionedSignal signal, TrackedSite site, WindowReader windows) {
    this.signal = signal;
    this.site = site;
    this.windows = windows;
  }

  /**
   * The squares of what is left of all discharges, over the noise in one sample.
   *
   * @param lags of the potentials around which it is looked
   */
  double of(UnitTrack unit, int u, double[] lags) {
    double earliest = Arrays.stream(lags).min().orElse(0);
    double latest = Arrays.stream(lags).max().orElse(0);
    int margin = unit.shape[0].length();
    int length = (int) (latest - earliest) + 2 * margin;
    double sum = 0;
    for (int d = 0; d < unit.discharges; d++) {
      long start = (long) Math.floor(unit.reference[d] + earliest) - margin;
      double[] left = of(unit, u, d, start, length);
      sum += Math.min(length + LOUDEST, SpikeMisfit.energy(left, signal.noiseUv()));
    }
    return sum;
  }

  /** What is left of one discharge in a window that starts at a sample of the channel. */
  double[] of(UnitTrack unit, int u, int d, long start, int length) {
    double[] left = new double[length];
    windows.read(unit.segment[d], start, left);
    site.takeOut(left, start, u);
    for (int p = 0; p < unit.potentials; p++) {
      if (unit.isPresent(d, p)) {
        unit.shape[p].addTo(left, unit.arrival[d][p] - start, -unit.scale[d][p]);
      }
    }
    return left;
  }
}
