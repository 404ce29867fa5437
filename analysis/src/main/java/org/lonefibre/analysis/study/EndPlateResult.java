package org.lonefibre.analysis.study;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.jitter.JitterStatistic;
import org.lonefibre.signal.recording.Finding;

/**
 * A stimulated end-plate: one potential, measured after every stimulus.
 *
 * @param potential identity of the potential
 * @param meanLatencyUs mean latency; null if unmeasurable
 * @param latencies every stimulus
 */
public record EndPlateResult(
    String id,
    String potential,
    int sweeps,
    int presentSweeps,
    int blockedSweeps,
    int obscuredSweeps,
    int excludedSweeps,
    int differences,
    @Nullable Double blockingPercent,
    @Nullable Double meanLatencyUs,
    @Nullable Double meanConsecutiveDifferenceUs,
    @Nullable Double jitterUs,
    @Nullable JitterStatistic jitterStatistic,
    @Nullable Double timingFloorUs,
    @Nullable Double correctedJitterUs,
    @Nullable Double correctedJitterLowUs,
    @Nullable Double correctedJitterHighUs,
    PairStatus status,
    List<Finding> findings,
    List<LatencyEntry> latencies)
    implements SignalMeasures {

  /** Copies the lists. */
  public EndPlateResult {
    findings = List.copyOf(findings);
    latencies = List.copyOf(latencies);
  }
}
