package org.lonefibre.analysis.study;

import org.jspecify.annotations.Nullable;

/**
 * The jitter of one end-plate alone, from three potentials or more of one motor unit.
 *
 * @param potential identity of the potential
 * @param jitterUs its own jitter; null if the pairs do not separate it
 * @param jitterLowUs lower end of the 95 % interval; null if unknown
 * @param jitterHighUs upper end of the 95 % interval; null if unknown
 */
public record EndPlateJitter(
    String potential,
    @Nullable Double jitterUs,
    @Nullable Double jitterLowUs,
    @Nullable Double jitterHighUs) {}
