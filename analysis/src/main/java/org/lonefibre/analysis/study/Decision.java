package org.lonefibre.analysis.study;

import java.util.List;
import org.lonefibre.analysis.grading.Grade;

/**
 * What a person decided about one site, against the automatic result. Decisions hold in the order
 * in which they were taken; a later one about the same thing takes the place of an earlier.
 */
public sealed interface Decision {

  /** Why; never empty. */
  String reason();

  /** Whether something counts. */
  enum Standing {
    /** It does, as far as the automatic result lets it. */
    COUNTED,
    /** It is left out by a person. */
    EXCLUDED
  }

  /** What a person says of a sweep. */
  enum Mark {
    /** Nothing: the automatic result holds. */
    AUTOMATIC,
    /** It is left out. */
    EXCLUDED,
    /** The paired potential is absent. */
    BLOCKED,
    /** Presence cannot be judged. */
    OBSCURED
  }

  /**
   * Sweeps of one signal.
   *
   * @param signal identity of the pair or end-plate
   * @param firstSweep number of the first sweep
   * @param lastSweep number of the last
   * @param mark what is said of them
   */
  record Sweeps(String signal, int firstSweep, int lastSweep, Mark mark, String reason)
      implements Decision {

    /** Refuses a range that ends before it begins, and an empty reason. */
    public Sweeps {
      requireReason(reason);
      if (firstSweep < 1 || lastSweep < firstSweep) {
        throw new IllegalArgumentException(
            "sweeps must be 1 or more and in order, found " + firstSweep + " to " + lastSweep);
      }
    }
  }

  /**
   * Everything in a stretch of the recording.
   *
   * @param startS start, in seconds since the start of the recording
   * @param endS end
   * @param standing whether it counts
   */
  record Stretch(double startS, double endS, Standing standing, String reason) implements Decision {

    /** Refuses a stretch that ends before it begins, and an empty reason. */
    public Stretch {
      requireReason(reason);
      if (!(startS >= 0 && endS > startS && endS < Double.POSITIVE_INFINITY)) {
        throw new IllegalArgumentException(
            "a stretch needs 0 <= startS < endS, found " + startS + " and " + endS);
      }
    }
  }

  /**
   * A potential, and with it every signal it is part of.
   *
   * @param potential its identity
   * @param standing whether it counts
   */
  record OfPotential(String potential, Standing standing, String reason) implements Decision {

    /** Refuses an empty reason. */
    public OfPotential {
      requireReason(reason);
    }
  }

  /**
   * A pair or end-plate.
   *
   * @param signal its identity
   * @param standing whether it counts
   */
  record OfSignal(String signal, Standing standing, String reason) implements Decision {

    /** Refuses an empty reason. */
    public OfSignal {
      requireReason(reason);
    }
  }

  /**
   * Another grade of a potential.
   *
   * @param potential its identity
   * @param grade what it is taken for
   */
  record Grading(String potential, Grade grade, String reason) implements Decision {

    /** Refuses an empty reason. */
    public Grading {
      requireReason(reason);
    }
  }

  /**
   * Another trigger potential of a motor unit.
   *
   * @param unit identity of the unit
   * @param potential identity of the new trigger
   */
  record Trigger(String unit, String potential, String reason) implements Decision {

    /** Refuses an empty reason. */
    public Trigger {
      requireReason(reason);
    }
  }

  /**
   * A decision that needs the samples: the site is measured again with it, and what is said of
   * potentials and sweeps afterwards is said of that measurement.
   */
  sealed interface OfSamples extends Decision {}

  /**
   * Another high-pass for this site.
   *
   * @param highPassHz its corner, 1 to 10,000
   */
  record Filter(double highPassHz, String reason) implements OfSamples {

    /** Refuses a corner out of range, and an empty reason. */
    public Filter {
      requireReason(reason);
      if (!(highPassHz >= 1 && highPassHz <= 10_000)) {
        throw new IllegalArgumentException("high-pass must be 1 to 10000 Hz, found " + highPassHz);
      }
    }
  }

  /**
   * Another trigger level for this site: the slope, over its noise, from which a potential is
   * looked at.
   *
   * @param thresholdRatio 2 to 20
   */
  record Level(double thresholdRatio, String reason) implements OfSamples {

    /** Refuses a level out of range, and an empty reason. */
    public Level {
      requireReason(reason);
      if (!(thresholdRatio >= 2 && thresholdRatio <= 20)) {
        throw new IllegalArgumentException(
            "trigger level must be 2 to 20 times the noise, found " + thresholdRatio);
      }
    }
  }

  /**
   * A potential that was missed, pointed at by a person.
   *
   * @param unit identity of the motor unit; that of the stimuli is {@code stimuli}
   * @param offsetMs place from the trigger potential, within 15, or from the stimulus, up to 50
   */
  record Missed(String unit, double offsetMs, String reason) implements OfSamples {

    /** Refuses a place out of reach, and an empty reason. */
    public Missed {
      requireReason(reason);
      if (!(offsetMs >= -15 && offsetMs <= 50)) {
        throw new IllegalArgumentException(
            "the place must lie -15 to 50 ms from the trigger or stimulus, found " + offsetMs);
      }
    }
  }

  /**
   * Two motor units that are one.
   *
   * @param unit identity of the one
   * @param other identity of the other
   */
  record Merge(String unit, String other, String reason) implements OfSamples {

    /** Refuses a unit and itself, and an empty reason. */
    public Merge {
      requireReason(reason);
      if (unit.equals(other)) {
        throw new IllegalArgumentException("a unit cannot be merged with itself");
      }
    }
  }

  /**
   * A motor unit that is two.
   *
   * @param unit its identity
   * @param sweeps numbers of the discharges that belong to the second one; empty for the groups
   *     that sizes and intervals fall into
   */
  record Split(String unit, List<Integer> sweeps, String reason) implements OfSamples {

    /** Refuses an empty reason; a decision kept before discharges could be chosen has none. */
    public Split {
      requireReason(reason);
      sweeps = sweeps == null ? List.of() : List.copyOf(sweeps);
    }

    /** Into the groups that sizes and intervals fall into. */
    public Split(String unit, String reason) {
      this(unit, List.of(), reason);
    }
  }

  private static void requireReason(String reason) {
    if (reason.isBlank()) {
      throw new IllegalArgumentException("a decision needs a reason");
    }
  }
}
