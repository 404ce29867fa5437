package org.lonefibre.analysis.jitter;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lonefibre.signal.recording.Finding;

/**
 * A series that allows no jitter. Its counts and its blocking stay.
 *
 * @param counts counts of sweeps and differences
 * @param meanInterDischargeIntervalMs mean inter-discharge interval; null if none is known
 * @param reason why there is no number
 * @param findings everything to know, the reason first
 * @param settings the settings that made it
 */
public record UnmeasurableJitter(
    JitterCounts counts,
    @Nullable Double meanInterDischargeIntervalMs,
    Finding reason,
    List<Finding> findings,
    JitterSettings settings)
    implements JitterResult {

  /** Copies the findings. */
  public UnmeasurableJitter {
    findings = List.copyOf(findings);
  }
}
