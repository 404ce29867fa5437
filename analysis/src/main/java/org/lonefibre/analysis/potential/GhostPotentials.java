package org.lonefibre.analysis.potential;

import java.util.stream.IntStream;
import org.lonefibre.signal.recording.TimeBase;

/**
 * A small potential beside a larger one may be what other units' discharges left in a unit before
 * they were told apart: once they are, it stands for nothing, but takes a part of the larger one.
 * So it is tried without it, shapes and arrivals anew from there; where that leaves hardly more of
 * the signal, there is none.
 *
 * <ul>
 *   <li>Thread rule: one thread at a time.
 * </ul>
 */
final class GhostPotentials {

  private static final double NEAR_US = 500;
  private static final double SMALLER = 0.5;

  /**
   * What a potential explains at least wherever it is found, over the noise in one sample
   * (engineering choice: a ghost explained 9, fibres of eight to thirty times the noise 64 and
   * more).
   */
  private static final double WORTH = 20;

  /** The same as a share of what it holds: the smallest potentials hold little more than that. */
  private static final double WORTH_SHARE = 0.05;

  private final UnitLeavings leavings;
  private final UnitWorkers workers;
  private final double noiseUv;
  private final double near;

  GhostPotentials(TimeBase timeBase, UnitLeavings leavings, UnitWorkers workers) {
    this.leavings = leavings;
    this.workers = workers;
    this.noiseUv = workers.noiseUv();
    this.near = timeBase.lengthSamples(NEAR_US);
  }

  /** The unit without potentials that explain nothing: itself if there are none. */
  UnitTrack without(UnitTrack first, int u) {
    UnitTrack unit = first;
    for (int p = unit.potentials - 1; p >= 0; p--) {
      if (isSmallBesideAnother(unit, p)) {
        int ghost = p;
        int[] kept = IntStream.range(0, unit.potentials).filter(q -> q != ghost).toArray();
        UnitTrack other = unit.keeping(kept).copy();
        workers.polishAgain(other, u);
        double more = leavings.of(other, u, unit.lag) - leavings.of(unit, u, unit.lag);
        unit = more < worth(unit.shape[p]) * unit.presentCount(p) ? other : unit;
      }
    }
    return unit;
  }

  private double worth(PotentialShape shape) {
    return Math.min(WORTH, WORTH_SHARE * shape.energy() / (noiseUv * noiseUv));
  }

  private boolean isSmallBesideAnother(UnitTrack unit, int p) {
    return p != unit.leader()
        && IntStream.range(0, unit.potentials)
            .anyMatch(
                q ->
                    Math.abs(unit.lag[q] - unit.lag[p]) < near
                        && unit.shape[p].peakToPeakUv() < SMALLER * unit.shape[q].peakToPeakUv());
  }
}
