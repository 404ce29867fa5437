package org.lonefibre.analysis.interval;

import java.util.List;

/**
 * All sweeps of one pair or end-plate, in order of time.
 *
 * @param kind intervals between potentials or latencies after a stimulus
 * @param sweeps the sweeps, numbered in rising order
 * @param stimulusErrorUs standard error of one stimulus time, 0 for intervals between potentials
 * @param scaleErrorRatio standard error of the scale of all deviations from the mean interval, as a
 *     share: more than 0 where potentials overlap
 */
public record IntervalSeries(
    Kind kind, List<SweepInterval> sweeps, double stimulusErrorUs, double scaleErrorRatio) {

  /** What is measured from what. */
  public enum Kind {
    /** From the trigger potential to the paired potential (voluntary). */
    INTER_POTENTIAL_INTERVAL,
    /** From the stimulus to the potential (stimulated). */
    STIMULUS_LATENCY
  }

  /** Copies the sweeps. */
  public IntervalSeries {
    sweeps = List.copyOf(sweeps);
    if (!(stimulusErrorUs >= 0)) {
      throw new IllegalArgumentException(
          "stimulusErrorUs must be 0 or more, found " + stimulusErrorUs);
    }
    if (!(scaleErrorRatio >= 0)) {
      throw new IllegalArgumentException(
          "scaleErrorRatio must be 0 or more, found " + scaleErrorRatio);
    }
  }

  /** A series whose potentials do not overlap. */
  public IntervalSeries(Kind kind, List<SweepInterval> sweeps, double stimulusErrorUs) {
    this(kind, sweeps, stimulusErrorUs, 0);
  }

  /** Number of sweeps in one state. */
  public int count(SweepState state) {
    return (int) sweeps.stream().filter(s -> s.state() == state).count();
  }
}
