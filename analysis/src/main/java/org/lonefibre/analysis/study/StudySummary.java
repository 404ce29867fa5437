package org.lonefibre.analysis.study;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lonefibre.signal.recording.Finding;

/**
 * The study in numbers. A signal is a pair or an end-plate.
 *
 * @param signals signals in the statistics
 * @param sites sites with at least one signal in the statistics
 * @param meanJitterUs mean jitter; null if there is none
 * @param medianJitterUs median jitter; null if there is none
 * @param meanIntervalUs mean of the absolute mean intervals; null if there is none
 * @param meanDischargeRateHz mean discharge or stimulus rate; null if there is none
 * @param signalsAboveLimit signals above the individual limit; null if nothing was compared
 * @param signalsWithBlocking signals with at least one blocked sweep
 * @param signalsAboveLimitOrBlocking their union; null if nothing was compared
 * @param lowJitterSignals signals with low jitter, listed apart
 * @param excludedSignals signals excluded, low jitter included
 * @param unmeasurableSignals signals without a number
 * @param rejectedByTradeRules signals the rules of thumb alone would leave out
 * @param rejectedByFullGrade signals the full grade leaves out
 * @param verdictByTradeRules comparison with the signals the rules of thumb alone accept
 * @param verdictByFullGrade comparison with the signals the full grade accepts
 * @param limits the limit set used; null, with a finding, when no set fits
 * @param criteria each criterion of the set
 * @param progress what can be said already; null when no set fits
 * @param alternatives the study counted other ways, beside the result
 * @param findings what to know about the study
 */
public record StudySummary(
    int signals,
    int sites,
    @Nullable Double meanJitterUs,
    @Nullable Double medianJitterUs,
    @Nullable Double meanIntervalUs,
    @Nullable Double meanDischargeRateHz,
    @Nullable Integer signalsAboveLimit,
    int signalsWithBlocking,
    @Nullable Integer signalsAboveLimitOrBlocking,
    int lowJitterSignals,
    int excludedSignals,
    int unmeasurableSignals,
    int rejectedByTradeRules,
    int rejectedByFullGrade,
    Verdict verdictByTradeRules,
    Verdict verdictByFullGrade,
    @Nullable LimitsUsed limits,
    List<Criterion> criteria,
    @Nullable StudyProgress progress,
    List<StudyAlternative> alternatives,
    List<Finding> findings) {

  /** Copies the lists; a summary kept before there were alternatives has none. */
  public StudySummary {
    criteria = List.copyOf(criteria);
    alternatives = alternatives == null ? List.of() : List.copyOf(alternatives);
    findings = List.copyOf(findings);
  }
}
