package org.lonefibre.analysis.study;

/**
 * One criterion of a limit set, and whether the study meets it.
 *
 * @param code {@code centre-above-limit} or {@code outliers}
 * @param met whether it is met, values counted as they are
 * @param metIfCloseCallsCountAgainst whether it is met if every value within 2 us of a limit
 *     counted the other way
 * @param text the fact in words with its numbers
 */
public record Criterion(
    String code, boolean met, boolean metIfCloseCallsCountAgainst, String text) {}
