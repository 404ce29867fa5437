package org.lonefibre.report.document;

import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.interval.SweepState;

/**
 * One sweep of a signal, interval and latency alike.
 *
 * @param sweep its number, from 1
 * @param timeS its time, in seconds
 * @param valueUs interval or latency, in us; null unless present
 * @param state what it says
 */
public record SweepPoint(int sweep, double timeS, @Nullable Double valueUs, SweepState state) {}
