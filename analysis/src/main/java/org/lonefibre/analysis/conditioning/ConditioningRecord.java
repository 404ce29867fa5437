package org.lonefibre.analysis.conditioning;

import org.jspecify.annotations.Nullable;

/**
 * What was done to the samples before anything was measured.
 *
 * @param highPassHz corner of the high-pass
 * @param lowPassHz corner of the low-pass; null if none was applied
 * @param order order of each filter, each way
 * @param phase {@code zero} for times
 * @param acceptancePhase {@code causal}: the acceptance rules of the trade are judged on a twin
 *     filtered as an amplifier does
 * @param mainsRemovedHz mains frequency removed on request; null if none
 * @param prefilter what the file says it was filtered with; empty if nothing
 */
public record ConditioningRecord(
    double highPassHz,
    @Nullable Double lowPassHz,
    int order,
    String phase,
    String acceptancePhase,
    @Nullable Double mainsRemovedHz,
    String prefilter) {}
