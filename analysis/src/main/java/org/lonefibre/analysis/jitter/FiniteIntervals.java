package org.lonefibre.analysis.jitter;

import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.interval.IntervalSeries;
import org.lonefibre.analysis.interval.SweepInterval;

/** Refuses series that would turn a jitter into no number: a caller's mistake, named by sweep. */
final class FiniteIntervals {

  private FiniteIntervals() {}

  static void require(IntervalSeries series) {
    if (!Double.isFinite(series.stimulusErrorUs())) {
      throw new IllegalArgumentException(
          "stimulusErrorUs must be finite, found " + series.stimulusErrorUs() + " us");
    }
    int last = Integer.MIN_VALUE;
    for (SweepInterval sweep : series.sweeps()) {
      if (sweep.sweep() <= last) {
        throw new IllegalArgumentException(
            "sweep numbers must rise, found " + sweep.sweep() + " after " + last);
      }
      last = sweep.sweep();
      Double interval = sweep.intervalUs();
      if (interval != null && !Double.isFinite(interval)) {
        throw refused(sweep, "intervalUs must be finite", interval, "us");
      }
      requireZeroOrMore(sweep, "errorUs", sweep.errorUs(), "us");
      requireZeroOrMore(sweep, "precedingIntervalMs", sweep.precedingIntervalMs(), "ms");
    }
  }

  private static void requireZeroOrMore(
      SweepInterval sweep, String name, @Nullable Double value, String unit) {
    if (value != null && !(value >= 0 && Double.isFinite(value))) {
      throw refused(sweep, name + " must be finite and 0 or more", value, unit);
    }
  }

  private static IllegalArgumentException refused(
      SweepInterval sweep, String rule, double found, String unit) {
    return new IllegalArgumentException(
        "sweep " + sweep.sweep() + ": " + rule + ", found " + found + " " + unit);
  }
}
