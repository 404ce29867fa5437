package org.lonefibre.analysis.jitter;

import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.interval.IntervalSeries;
import org.lonefibre.analysis.interval.SweepState;

/**
 * How many sweeps of each state a series has, and how many differences can be formed.
 *
 * @param sweeps number of sweeps
 * @param presentSweeps sweeps with both potentials
 * @param blockedSweeps sweeps with the trigger (or stimulus) alone
 * @param triggerAbsentSweeps sweeps with the paired potential alone
 * @param obscuredSweeps sweeps that cannot be judged
 * @param excludedSweeps sweeps left out
 * @param differences differences between neighbouring sweeps that are both present
 */
public record JitterCounts(
    int sweeps,
    int presentSweeps,
    int blockedSweeps,
    int triggerAbsentSweeps,
    int obscuredSweeps,
    int excludedSweeps,
    int differences) {

  static JitterCounts of(IntervalSeries series, int differences) {
    return new JitterCounts(
        series.sweeps().size(),
        series.count(SweepState.PRESENT),
        series.count(SweepState.BLOCKED),
        series.count(SweepState.TRIGGER_ABSENT),
        series.count(SweepState.OBSCURED),
        series.count(SweepState.EXCLUDED),
        differences);
  }

  /**
   * Blocked over present and blocked, in percent (universal use, from memory); null if there are
   * neither.
   */
  public @Nullable Double blockingPercent() {
    int judged = presentSweeps + blockedSweeps;
    return judged == 0 ? null : 100.0 * blockedSweeps / judged;
  }
}
