package org.lonefibre.analysis.discharge;

import java.util.Arrays;
import java.util.List;

/**
 * The motor units of a site, and the spikes that none of them explains.
 *
 * <ul>
 *   <li>Thread rule: immutable, free to share.
 * </ul>
 */
public final class Discharges {

  private final List<UnitDraft> units;
  private final double[] unexplained;
  private final double[] heights;
  private final Origin origin;

  /** What says that there was a discharge. */
  public enum Origin {
    /** Its own potentials: where none is sure, there may have been none. */
    POTENTIALS,
    /** A stimulus, whatever follows. */
    STIMULI
  }

  Discharges(List<UnitDraft> units, double[] unexplained, double[] heights, Origin origin) {
    this.origin = origin;
    this.units = List.copyOf(units);
    this.unexplained = unexplained;
    this.heights = heights;
  }

  /** What says that there was a discharge. */
  public Origin origin() {
    return origin;
  }

  /** The motor units, in the order in which they were found (largest potential first). */
  public List<UnitDraft> units() {
    return units;
  }

  /**
   * Height of the largest unexplained spike in a stretch, 0 if there is none.
   *
   * @param fromSamples start of the stretch, in samples of the channel
   * @param toSamples end of the stretch
   */
  public double largestUnexplainedUv(double fromSamples, double toSamples) {
    int i = Arrays.binarySearch(unexplained, fromSamples);
    double largest = 0;
    for (int k = i < 0 ? -i - 1 : i; k < unexplained.length && unexplained[k] <= toSamples; k++) {
      largest = Math.max(largest, Math.abs(heights[k]));
    }
    return largest;
  }
}
