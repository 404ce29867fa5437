package org.lonefibre.analysis.study;

import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.interval.SweepState;

/**
 * One sweep of a pair as written to documents.
 *
 * @param sweep number of the discharge, from 1
 * @param timeS time at which the trigger potential arrived (or usually does), since the start of
 *     the recording, in seconds
 * @param intervalUs paired minus trigger arrival; null unless present
 * @param errorUs its standard error; null unless present
 * @param state what the sweep says
 */
public record SweepEntry(
    int sweep,
    double timeS,
    @Nullable Double intervalUs,
    @Nullable Double errorUs,
    SweepState state) {}
