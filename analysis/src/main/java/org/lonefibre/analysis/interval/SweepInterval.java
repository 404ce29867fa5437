package org.lonefibre.analysis.interval;

import org.jspecify.annotations.Nullable;

/**
 * One sweep of a pair (inter-potential interval) or of an end-plate (latency after the stimulus).
 *
 * @param sweep number of the discharge or stimulus, from 1
 * @param timeS time at which the trigger potential arrived (or usually does), or of the stimulus,
 *     since the start of the recording, in seconds
 * @param intervalUs paired minus trigger arrival, or arrival minus stimulus, in us; null unless
 *     present
 * @param errorUs standard error of {@code intervalUs} from the arrival times; null unless present
 * @param state what the sweep says
 * @param precedingIntervalMs inter-discharge interval before this sweep; null for the first, after
 *     a gap, and where the discharge before was not seen
 * @param continuous whether this sweep directly follows the sweep before it: false for the first
 *     and after a gap of the file
 */
public record SweepInterval(
    int sweep,
    double timeS,
    @Nullable Double intervalUs,
    @Nullable Double errorUs,
    SweepState state,
    @Nullable Double precedingIntervalMs,
    boolean continuous) {

  /** Refuses an interval without the state present, and the reverse. */
  public SweepInterval {
    if ((intervalUs != null) != (state == SweepState.PRESENT)) {
      throw new IllegalArgumentException(
          "intervalUs must be given exactly when the state is PRESENT, found "
              + intervalUs
              + " and "
              + state);
    }
  }
}
