package org.lonefibre.analysis.potential;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.lonefibre.analysis.conditioning.ConditionedSignal;

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

  private TrackedUnit(double[] reference, int[] segment, List<TrackedPotential> potentials) {
    this.reference = reference;
    this.segment = segment;
    this.potentials = List.copyOf(potentials);
  }

  static TrackedUnit of(UnitTrack unit, ConditionedSignal signal, PotentialSettings settings) {
    double[] correlation = signal.noiseAutocorrelation(settings.shapeSamples(signal.timeBase()));
    List<TrackedPotential> potentials = new ArrayList<>();
    for (int p = 0; p < unit.potentials; p++) {
      PotentialShape shape = unit.shape[p];
      if (shape != null
          && unit.presentCount(p) > 0
          && shape.peakToPeakUv() >= settings.smallestSnr() * signal.noiseUv()) {
        potentials.add(TrackedPotential.of(unit, p, signal.noiseUv(), correlation));
      }
    }
    potentials.sort(Comparator.comparingDouble(TrackedPotential::lagSamples));
    return new TrackedUnit(unit.reference.clone(), unit.segment.clone(), potentials);
  }

  /** Number of discharges. */
  public int discharges() {
    return reference.length;
  }

  /** Where lag 0 of a discharge lies, in samples of the channel. */
  public double referenceSamples(int discharge) {
    return reference[discharge];
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
