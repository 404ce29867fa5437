package org.lonefibre.analysis.study;

import org.jspecify.annotations.Nullable;

/**
 * The study counted another way, beside the result.
 *
 * @param code {@code doubtful-left-out}, {@code msd-for-all} or {@code other-limits}
 * @param text what was done otherwise
 * @param signals signals in the statistics
 * @param meanJitterUs their mean jitter; null if there is none
 * @param medianJitterUs their median; null if there is none
 * @param signalsAboveLimitOrBlocking signals above the individual limit or blocking; null if
 *     nothing was compared
 * @param verdict what the comparison finds
 */
public record StudyAlternative(
    String code,
    String text,
    int signals,
    @Nullable Double meanJitterUs,
    @Nullable Double medianJitterUs,
    @Nullable Integer signalsAboveLimitOrBlocking,
    Verdict verdict) {}
