package org.lonefibre.analysis.jitter;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lonefibre.signal.recording.Finding;
import org.lonefibre.signal.recording.Severity;

/**
 * The jitter of one pair or end-plate.
 *
 * @param counts counts of sweeps and differences
 * @param meanIntervalUs mean interval of the present sweeps, negative if the paired potential comes
 *     first
 * @param medianIntervalUs their median
 * @param meanConsecutiveDifferenceUs MCD
 * @param meanSortedDifferenceUs MSD; null for latencies after a stimulus, and where fewer than two
 *     present sweeps know the interval before them
 * @param jitterUs the trade's number: MCD or MSD, uncorrected
 * @param statistic which of the two it is
 * @param timingFloorUs the jitter that errors of arrival and stimulus alone would give
 * @param correctedJitterUs {@code sqrt(jitter^2 - floor^2)}, 0 where the floor is larger
 * @param correctedJitterLowUs lower end of its 95 % interval
 * @param correctedJitterHighUs upper end of its 95 % interval
 * @param meanInterDischargeIntervalMs mean inter-discharge interval; null if none is known
 * @param findings what to know about it, in the order of judgement
 * @param settings the settings that made it
 */
public record JitterMeasurement(
    JitterCounts counts,
    double meanIntervalUs,
    double medianIntervalUs,
    double meanConsecutiveDifferenceUs,
    @Nullable Double meanSortedDifferenceUs,
    double jitterUs,
    JitterStatistic statistic,
    double timingFloorUs,
    double correctedJitterUs,
    double correctedJitterLowUs,
    double correctedJitterHighUs,
    @Nullable Double meanInterDischargeIntervalMs,
    List<Finding> findings,
    JitterSettings settings)
    implements JitterResult {

  /** Copies the findings. */
  public JitterMeasurement {
    findings = List.copyOf(findings);
  }

  /** Whether a finding keeps it out of the statistics; its numbers are kept for the record. */
  public boolean isExcluded() {
    return findings.stream().anyMatch(finding -> finding.severity() == Severity.EXCLUSION);
  }
}
