package org.lonefibre.analysis.study;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.jitter.JitterStatistic;
import org.lonefibre.signal.recording.Finding;

/**
 * A fibre pair: two potentials of one motor unit, measured in every discharge.
 *
 * @param triggerPotential identity of the trigger potential
 * @param pairedPotential identity of the paired potential
 * @param triggerAbsentSweeps sweeps with the paired potential but without the trigger
 * @param meanIntervalUs mean interval, negative if the paired potential comes first; null if
 *     unmeasurable
 * @param meanSortedDifferenceUs mean sorted-data difference; null if unmeasurable
 * @param meanInterDischargeIntervalMs mean inter-discharge interval; null if unknown
 * @param intervals every sweep
 */
public record PairResult(
    String id,
    String triggerPotential,
    String pairedPotential,
    int sweeps,
    int presentSweeps,
    int blockedSweeps,
    int triggerAbsentSweeps,
    int obscuredSweeps,
    int excludedSweeps,
    int differences,
    @Nullable Double blockingPercent,
    @Nullable Double meanIntervalUs,
    @Nullable Double meanConsecutiveDifferenceUs,
    @Nullable Double meanSortedDifferenceUs,
    @Nullable Double jitterUs,
    @Nullable JitterStatistic jitterStatistic,
    @Nullable Double timingFloorUs,
    @Nullable Double correctedJitterUs,
    @Nullable Double correctedJitterLowUs,
    @Nullable Double correctedJitterHighUs,
    @Nullable Double meanInterDischargeIntervalMs,
    PairStatus status,
    List<Finding> findings,
    List<SweepEntry> intervals)
    implements SignalMeasures {

  /** Copies the lists. */
  public PairResult {
    findings = List.copyOf(findings);
    intervals = List.copyOf(intervals);
  }
}
