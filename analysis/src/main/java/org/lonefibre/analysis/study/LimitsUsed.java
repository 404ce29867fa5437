package org.lonefibre.analysis.study;

import org.jspecify.annotations.Nullable;

/**
 * The one limit set a study was compared with.
 *
 * @param set identity and name of the set
 * @param centreStatistic {@code mean}, {@code median} or {@code none}
 * @param centreUs limit of the centre; null if the set has none
 * @param individualUs limit of a single signal; null if the set has none
 * @param outlierRule the rule for single signals, in the words of the set
 * @param source literature
 * @param status how far the values may be trusted
 */
public record LimitsUsed(
    String set,
    String centreStatistic,
    @Nullable Double centreUs,
    @Nullable Double individualUs,
    String outlierRule,
    String source,
    String status) {}
