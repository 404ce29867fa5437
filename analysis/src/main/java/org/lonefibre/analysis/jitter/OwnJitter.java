package org.lonefibre.analysis.jitter;

import org.jspecify.annotations.Nullable;

/**
 * The jitter of one end-plate alone; of the part common to all where the potential is the trigger
 * of a stimulated recording.
 *
 * @param potential identity of the potential
 * @param jitterUs its own jitter, arrival error taken off where it is known; null if the pairs do
 *     not separate it
 * @param jitterLowUs lower end of its 95 % interval; null if unknown
 * @param jitterHighUs upper end; may be known where {@code jitterUs} is not: then it is at most
 *     this
 * @param reason why there is no jitter, in words; null if there is one
 */
public record OwnJitter(
    String potential,
    @Nullable Double jitterUs,
    @Nullable Double jitterLowUs,
    @Nullable Double jitterHighUs,
    @Nullable String reason) {}
