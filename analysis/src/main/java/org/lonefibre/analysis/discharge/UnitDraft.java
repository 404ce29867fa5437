package org.lonefibre.analysis.discharge;

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
  private final double[] reference;
  private final int[] segment;
  private final double[][] position;

  UnitDraft(List<Role> roles, double[] reference, int[] segment, double[][] position) {
    this.lag = roles.stream().mapToDouble(role -> role.lag).toArray();
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
