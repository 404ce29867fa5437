package org.lonefibre.analysis.study;

import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.interval.SweepState;

/**
 * One sweep of an end-plate as written to documents.
 *
 * @param sweep number of the stimulus, from 1
 * @param timeS time of the stimulus since the start of the recording, in seconds
 * @param latencyUs arrival minus stimulus; null unless present
 * @param errorUs its standard error; null unless present
 * @param state what the sweep says
 */
public record LatencyEntry(
    int sweep,
    double timeS,
    @Nullable Double latencyUs,
    @Nullable Double errorUs,
    SweepState state) {}
