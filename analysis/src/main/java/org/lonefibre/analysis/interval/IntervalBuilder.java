package org.lonefibre.analysis.interval;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.potential.Presence;
import org.lonefibre.analysis.potential.TrackedPotential;
import org.lonefibre.analysis.potential.TrackedUnit;
import org.lonefibre.signal.recording.TimeBase;
import org.lonefibre.signal.robust.RobustStatistics;

/**
 * Makes the interval of every sweep, with its state, from the arrivals of two potentials, or of a
 * potential and a stimulus.
 *
 * <ul>
 *   <li>Trigger and paired potential there: present. Only the trigger: blocked. Only the paired
 *       potential: trigger-absent; so too if both are absent while the unit fired. One of the two
 *       cannot be judged: obscured.
 *   <li>A sweep is continuous with the one before if both lie in one continuous segment. A latency
 *       lies within its own sweep, so sweeps that were cut are continuous too if their stimuli are
 *       no more than {@value #FOLLOWS} usual times apart: none was left out between them.
 *   <li>Thread rule: safe, keeps nothing between calls.
 * </ul>
 */
public final class IntervalBuilder {

  /** More than one usual time, less than two: none was left out; engineering choice. */
  private static final double FOLLOWS = 1.5;

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
              clock.timeS(place(unit, trigger, d), unit.segment(d)),
              present ? timeBase.durationUs(interval) : null,
              present ? timeBase.durationUs(error) : null,
              state,
              precedingMs(unit, trigger, d),
              isContinuous(unit, d)));
    }
    return new IntervalSeries(
        IntervalSeries.Kind.INTER_POTENTIAL_INTERVAL,
        sweeps,
        0,
        Math.max(trigger.scaleErrorRatio(), paired.scaleErrorRatio()));
  }

  /** Where the trigger potential arrived; where it did not, its usual place in the discharge. */
  private static double place(TrackedUnit unit, TrackedPotential trigger, int d) {
    return trigger.presence(d) == Presence.PRESENT
        ? trigger.arrivalSamples(d)
        : unit.referenceSamples(d) + trigger.lagSamples();
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
    double[] beforeMs = beforeMs(unit, stimulusSamples);
    double mostMs = FOLLOWS * usual(beforeMs);
    for (int d = 0; d < unit.discharges(); d++) {
      boolean follows = isContinuous(unit, d) || d > 0 && beforeMs[d] <= mostMs;
      SweepState state =
          switch (potential.presence(d)) {
            case PRESENT -> SweepState.PRESENT;
            case ABSENT -> SweepState.BLOCKED;
            case UNCERTAIN -> SweepState.OBSCURED;
          };
      boolean present = state == SweepState.PRESENT;
      double latency = potential.arrivalSamples(d) - stimulusSamples[d];
      sweeps.add(
          new SweepInterval(
              d + 1,
              clock.timeS(stimulusSamples[d], unit.segment(d)),
              present ? timeBase.durationUs(latency) : null,
              present ? timeBase.durationUs(potential.errorSamples(d)) : null,
              state,
              follows ? beforeMs[d] : null,
              follows));
    }
    return new IntervalSeries(
        IntervalSeries.Kind.STIMULUS_LATENCY, sweeps, stimulusErrorUs, potential.scaleErrorRatio());
  }

  /** Time from one stimulus to the next by the clock, what was not recorded included. */
  private double[] beforeMs(TrackedUnit unit, double[] stimulusSamples) {
    double[] beforeMs = new double[unit.discharges()];
    for (int d = 1; d < beforeMs.length; d++) {
      double oneS = clock.timeS(stimulusSamples[d - 1], unit.segment(d - 1));
      beforeMs[d] = 1000 * (clock.timeS(stimulusSamples[d], unit.segment(d)) - oneS);
    }
    return beforeMs;
  }

  private static double usual(double[] beforeMs) {
    return beforeMs.length < 2
        ? 0
        : RobustStatistics.median(Arrays.copyOfRange(beforeMs, 1, beforeMs.length));
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

  private @Nullable Double precedingMs(TrackedUnit unit, TrackedPotential trigger, int d) {
    return isContinuous(unit, d)
        ? Math.max(0, timeBase.durationMs(place(unit, trigger, d) - place(unit, trigger, d - 1)))
        : null;
  }
}
