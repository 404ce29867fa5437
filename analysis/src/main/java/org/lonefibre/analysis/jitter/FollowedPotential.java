package org.lonefibre.analysis.jitter;

import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.interval.IntervalSeries;

/**
 * A potential and its interval from the trigger (or stimulus) in every sweep.
 *
 * @param potential identity of the potential
 * @param intervals its sweeps; sweep numbers agree among all potentials of one unit
 * @param arrivalErrorUs typical standard error of its own arrival; null if unknown, then nothing is
 *     taken off for it
 */
public record FollowedPotential(
    String potential, IntervalSeries intervals, @Nullable Double arrivalErrorUs) {}
