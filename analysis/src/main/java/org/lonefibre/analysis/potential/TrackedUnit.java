package org.lonefibre.analysis.potential;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/**
 * A motor unit followed through a site.
 *
 * <ul>
 *   <li>Thread rule: immutable, free to share.
 * </ul>
 */
public final class TrackedUnit {

  private final double[] reference;
  private final int[] segment;
  private final List<TrackedPotential> potentials;

  /** Of what it is given, the potentials in order of their place. */
  TrackedUnit(double[] reference, int[] segment, List<TrackedPotential> potentials) {
    this.reference = reference;
    this.segment = segment;
    List<TrackedPotential> ordered = new ArrayList<>(potentials);
    ordered.sort(Comparator.comparingDouble(TrackedPotential::lagSamples));
    this.potentials = List.copyOf(ordered);
  }

  /** Number of discharges. */
  public int discharges() {
    return reference.length;
  }

  /** Where lag 0 of a discharge lies, in samples of the channel. */
  public double referenceSamples(int discharge) {
    return reference[discharge];
  }

  /** The first discharge whose reference lies at or after a place; {@link #discharges} if none. */
  public int firstAtOrAfter(double samples) {
    int low = 0;
    int high = reference.length;
    while (low < high) {
      int middle = (low + high) >>> 1;
      if (reference[middle] < samples) {
        low = middle + 1;
      } else {
        high = middle;
      }
    }
    return low;
  }

  /** Index of the continuous segment of a discharge. */
  public int segment(int discharge) {
    return segment[discharge];
  }

  /** The potentials, in order of their place in the discharge. */
  public List<TrackedPotential> potentials() {
    return potentials;
  }
}
