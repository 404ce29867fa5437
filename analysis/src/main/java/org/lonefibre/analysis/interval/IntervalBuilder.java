package org.lonefibre.analysis.interval;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.potential.Presence;
import org.lonefibre.analysis.potential.TrackedPotential;
import org.lonefibre.analysis.potential.TrackedUnit;
import org.lonefibre.signal.recording.TimeBase;

/**
 * Makes the interval of every sweep, with its state, from the arrivals of two potentials, or of a
 * potential and a stimulus.
 *
 * <ul>
 *   <li>Trigger and paired potential there: present. Only the trigger: blocked. Only the paired
 *       potential: trigger-absent; so too if both are absent while the unit fired. One of the two
 *       cannot be judged: obscured.
 *   <li>A sweep is continuous with the one before if both lie in one continuous segment.
 *   <li>Thread rule: safe, keeps nothing between calls.
 * </ul>
 */
public final class IntervalBuilder {

  private final TimeBase timeBase;
  private final SampleClock clock;

  /** Time since the start of the recording of a position within a segment. */
  @FunctionalInterface
  public interface SampleClock {

    /**
     * @param positionSamples position in samples of the channel
     * @param segment index of the continuous segment
     */
    double timeS(double positionSamples, int segment);
  }

  /** For the channel with this time base. */
  public IntervalBuilder(TimeBase timeBase, SampleClock clock) {
    this.timeBase = timeBase;
    this.clock = clock;
  }

  /** Intervals from a trigger to a paired potential of one unit. */
  public IntervalSeries pair(TrackedUnit unit, TrackedPotential trigger, TrackedPotential paired) {
    List<SweepInterval> sweeps = new ArrayList<>();
    for (int d = 0; d < unit.discharges(); d++) {
      SweepState state = state(trigger.presence(d), paired.presence(d));
      boolean present = state == SweepState.PRESENT;
      double interval = paired.arrivalSamples(d) - trigger.arrivalSamples(d);
      double error = Math.hypot(paired.errorSamples(d), trigger.errorSamples(d));
      sweeps.add(
          new SweepInterval(
              d + 1,
              clock.timeS(unit.referenceSamples(d), unit.segment(d)),
              present ? timeBase.durationUs(interval) : null,
              present ? timeBase.durationUs(error) : null,
              state,
              precedingMs(unit, d),
              isContinuous(unit, d)));
    }
    return new IntervalSeries(IntervalSeries.Kind.INTER_POTENTIAL_INTERVAL, sweeps, 0);
  }

  /**
   * Latencies of a potential after stimuli.
   *
   * @param stimulusSamples time of each stimulus, in samples of the channel, one for each sweep
   * @param stimulusErrorUs standard error of one stimulus time
   */
  public IntervalSeries latencies(
      TrackedUnit unit,
      TrackedPotential potential,
      double[] stimulusSamples,
      double stimulusErrorUs) {
    List<SweepInterval> sweeps = new ArrayList<>();
    for (int d = 0; d < unit.discharges(); d++) {
      SweepState state =
          switch (potential.presence(d)) {
            case PRESENT -> SweepState.PRESENT;
            case ABSENT -> SweepState.BLOCKED;
            case UNCERTAIN -> SweepState.OBSCURED;
          };
      boolean present = state == SweepState.PRESENT;
      double latency = potential.arrivalSamples(d) - stimulusSamples[d];
      double before = d == 0 ? 0 : stimulusSamples[d] - stimulusSamples[d - 1];
      sweeps.add(
          new SweepInterval(
              d + 1,
              clock.timeS(stimulusSamples[d], unit.segment(d)),
              present ? timeBase.durationUs(latency) : null,
              present ? timeBase.durationUs(potential.errorSamples(d)) : null,
              state,
              isContinuous(unit, d) ? timeBase.durationMs(before) : null,
              isContinuous(unit, d)));
    }
    return new IntervalSeries(IntervalSeries.Kind.STIMULUS_LATENCY, sweeps, stimulusErrorUs);
  }

  private static SweepState state(Presence trigger, Presence paired) {
    if (trigger == Presence.UNCERTAIN || paired == Presence.UNCERTAIN) {
      return SweepState.OBSCURED;
    }
    if (trigger == Presence.ABSENT) {
      return SweepState.TRIGGER_ABSENT;
    }
    return paired == Presence.PRESENT ? SweepState.PRESENT : SweepState.BLOCKED;
  }

  private static boolean isContinuous(TrackedUnit unit, int d) {
    return d > 0 && unit.segment(d) == unit.segment(d - 1);
  }

  private @Nullable Double precedingMs(TrackedUnit unit, int d) {
    return isContinuous(unit, d)
        ? timeBase.durationMs(unit.referenceSamples(d) - unit.referenceSamples(d - 1))
        : null;
  }
}
