package org.lonefibre.analysis.study;

import org.jspecify.annotations.Nullable;

/**
 * The person examined, by a code, never a name.
 *
 * @param code code given by the laboratory; null if none
 * @param ageYears age in years; null if unknown
 */
public record Subject(@Nullable String code, @Nullable Double ageYears) {}
