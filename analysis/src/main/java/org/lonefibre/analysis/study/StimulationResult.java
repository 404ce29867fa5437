package org.lonefibre.analysis.study;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What stimuli evoked in a recording.
 *
 * @param stimuli number of stimuli
 * @param meanRateHz stimuli a second; null if fewer than two
 * @param commonLatencyJitterUs jitter of the part of the latency common to all end-plates (axon);
 *     null if fewer than two end-plates
 * @param potentials the potentials, each one end-plate
 * @param endPlates the end-plates
 * @param drawing sweeps superimposed on the stimulus; null if not kept
 */
public record StimulationResult(
    int stimuli,
    @Nullable Double meanRateHz,
    @Nullable Double commonLatencyJitterUs,
    List<PotentialResult> potentials,
    List<EndPlateResult> endPlates,
    @Nullable SweepDrawing drawing) {

  /** Copies the lists. */
  public StimulationResult {
    potentials = List.copyOf(potentials);
    endPlates = List.copyOf(endPlates);
  }
}
