package org.lonefibre.analysis.jitter;

import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.lonefibre.signal.recording.Finding;

/**
 * What the end-plates of one stimulated recording say together.
 *
 * @param commonLatencyJitterUs jitter of the part of the latency common to all end-plates, that of
 *     the stimulus time taken off; null with fewer than two end-plates, or if too small to be told
 * @param findings what concerns the recording
 * @param ofPotentials what concerns one end-plate, by potential; potentials without are left out
 */
public record StimulatedFindings(
    @Nullable Double commonLatencyJitterUs,
    List<Finding> findings,
    Map<String, List<Finding>> ofPotentials) {

  /** Copies the lists. */
  public StimulatedFindings {
    findings = List.copyOf(findings);
    ofPotentials = Map.copyOf(ofPotentials);
  }
}
