package org.lonefibre.analysis.reference;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.study.Criterion;
import org.lonefibre.analysis.study.LimitsUsed;
import org.lonefibre.analysis.study.Verdict;

/**
 * What one limit set that holds for a study would say of it. Sets are shown side by side and never
 * mixed.
 *
 * @param setName name of the set
 * @param limits its values at the age of the subject, with source and status
 * @param use {@code on}, or {@value PublishedLimit#OFF}
 * @param signalsAboveLimit signals above its individual limit; null if it has none or is off
 * @param signalsAboveLimitOrBlocking signals above it or blocking; null likewise
 * @param verdict what it would say, by the full grade
 * @param criteria each of its criteria
 */
public record LimitComparison(
    String setName,
    LimitsUsed limits,
    String use,
    @Nullable Integer signalsAboveLimit,
    @Nullable Integer signalsAboveLimitOrBlocking,
    Verdict verdict,
    List<Criterion> criteria) {

  /** Copies the criteria. */
  public LimitComparison {
    criteria = List.copyOf(criteria);
  }
}
