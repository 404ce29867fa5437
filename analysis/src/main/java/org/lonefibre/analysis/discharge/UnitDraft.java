package org.lonefibre.analysis.discharge;

import java.util.Arrays;
import java.util.List;

/**
 * A motor unit as found by its spikes: discharges in order of time, and for each the spike that
 * plays each role, if it was seen.
 *
 * <ul>
 *   <li>Thread rule: read only once made.
 * </ul>
 */
public final class UnitDraft {

  private final double[] lag;
  private final double[] size;
  private final double[] reference;
  private final int[] segment;
  private final double[][] position;

  UnitDraft(List<Role> roles, double[] reference, int[] segment, double[][] position) {
    this.lag = roles.stream().mapToDouble(role -> role.lag).toArray();
    this.size = roles.stream().mapToDouble(Role::size).toArray();
    this.reference = reference;
    this.segment = segment;
    this.position = position;
  }

  /** Number of potentials. */
  public int potentials() {
    return lag.length;
  }

  /** Number of discharges. */
  public int discharges() {
    return reference.length;
  }

  /** Mean place of a potential from the reference of the discharge, in samples. */
  public double lagSamples(int potential) {
    return lag[potential];
  }

  /** Share of the discharges that follow those of another unit at one fixed time. */
  double lockedRatio(UnitDraft other, double reachSamples, double windowSamples) {
    double[] lags = new double[discharges()];
    int n = 0;
    for (int d = 0; d < discharges(); d++) {
      int i = Arrays.binarySearch(other.reference, reference[d]);
      int after = i < 0 ? -i - 1 : i;
      for (int e = Math.max(0, after - 1); e <= Math.min(other.discharges() - 1, after); e++) {
        double lag = reference[d] - other.reference[e];
        if (Math.abs(lag) <= reachSamples && n < lags.length) {
          lags[n++] = lag;
        }
      }
    }
    Arrays.sort(lags, 0, n);
    int most = 0;
    int low = 0;
    for (int high = 0; high < n; high++) {
      while (lags[high] - lags[low] > windowSamples) {
        low++;
      }
      most = Math.max(most, high - low + 1);
    }
    return (double) most / Math.max(1, discharges());
  }

  /** Size of a potential beside the others, in no unit. */
  public double sizeRatio(int potential) {
    return size[potential];
  }

  /** Reference of a discharge (where lag 0 lies), in samples of the channel. */
  public double referenceSamples(int discharge) {
    return reference[discharge];
  }

  /** Index of the continuous segment a discharge lies in. */
  public int segment(int discharge) {
    return segment[discharge];
  }

  /** Whether a spike was seen in the place of a potential. */
  public boolean isSeen(int discharge, int potential) {
    return !Double.isNaN(position[discharge][potential]);
  }

  /** Position of that spike, in samples of the channel; only if {@link #isSeen}. */
  public double spikeSamples(int discharge, int potential) {
    if (!isSeen(discharge, potential)) {
      throw new IllegalArgumentException(
          "no spike was seen in discharge " + discharge + ", potential " + potential);
    }
    return position[discharge][potential];
  }
}
