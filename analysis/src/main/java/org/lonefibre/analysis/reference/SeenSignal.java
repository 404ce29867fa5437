package org.lonefibre.analysis.reference;

import org.jspecify.annotations.Nullable;

/**
 * One signal of a study under way.
 *
 * @param jitterUs its jitter; null if it blocks too much to have one
 * @param blockedSweeps sweeps in which it is blocked
 */
public record SeenSignal(@Nullable Double jitterUs, int blockedSweeps) {}
