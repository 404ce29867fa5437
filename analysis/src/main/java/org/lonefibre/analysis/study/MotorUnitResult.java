package org.lonefibre.analysis.study;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lonefibre.signal.recording.Finding;

/**
 * One motor unit followed through a recording.
 *
 * @param id identity within the recording
 * @param discharges number of discharges found
 * @param meanDischargeRateHz discharges a second while it fires; null if fewer than two
 * @param meanInterDischargeIntervalMs mean inter-discharge interval, pauses left out; null if fewer
 *     than two
 * @param findings what to know about it
 * @param potentials its potentials in order of time
 * @param pairs its pairs, all with one trigger
 * @param endPlateJitters from three potentials or more
 * @param drawing sweeps superimposed on the trigger; null if not kept
 */
public record MotorUnitResult(
    String id,
    int discharges,
    @Nullable Double meanDischargeRateHz,
    @Nullable Double meanInterDischargeIntervalMs,
    List<Finding> findings,
    List<PotentialResult> potentials,
    List<PairResult> pairs,
    List<EndPlateJitter> endPlateJitters,
    @Nullable SweepDrawing drawing) {

  /** Copies the lists. */
  public MotorUnitResult {
    findings = List.copyOf(findings);
    potentials = List.copyOf(potentials);
    pairs = List.copyOf(pairs);
    endPlateJitters = List.copyOf(endPlateJitters);
  }
}
