package org.lonefibre.analysis.study;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.grading.Grade;
import org.lonefibre.signal.recording.Finding;

/**
 * One potential of a motor unit or of a stimulated recording.
 *
 * @param id identity within the recording
 * @param offsetMs mean time from the trigger potential, or from the stimulus, in ms
 * @param amplitudeUv maximum minus minimum; null without calibration
 * @param riseTimeUs positive to negative peak of the steepest phase; null if it cannot be told
 * @param snr peak to peak over the noise
 * @param arrivalErrorUs typical standard error of one arrival time; null if unmeasurable
 * @param presentSweeps sweeps in which it is present
 * @param grade the full judgement
 * @param gradeByTradeRules the judgement by the rules of thumb of the trade alone
 * @param singleFibreProbability probability that one fibre made it, null only when ungraded
 * @param findings what to know about it
 * @param drawing its shape; null if not kept
 */
public record PotentialResult(
    String id,
    double offsetMs,
    @Nullable Double amplitudeUv,
    @Nullable Double riseTimeUs,
    double snr,
    @Nullable Double arrivalErrorUs,
    int presentSweeps,
    Grade grade,
    Grade gradeByTradeRules,
    @Nullable Double singleFibreProbability,
    List<Finding> findings,
    @Nullable PotentialDrawing drawing) {

  /** Copies the findings. */
  public PotentialResult {
    findings = List.copyOf(findings);
  }
}
