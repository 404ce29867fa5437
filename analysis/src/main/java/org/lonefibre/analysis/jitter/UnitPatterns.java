package org.lonefibre.analysis.jitter;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.TreeSet;
import org.lonefibre.analysis.interval.SweepInterval;
import org.lonefibre.analysis.interval.SweepState;
import org.lonefibre.signal.recording.Evidence;
import org.lonefibre.signal.recording.Evidence.Quantity;
import org.lonefibre.signal.recording.Finding;
import org.lonefibre.signal.recording.FindingCode;

/**
 * What the potentials of one motor unit say together.
 *
 * <ul>
 *   <li>{@code trigger-abnormal}: all followers jitter together. The trigger's own jitter is raised
 *       and exceeds that of every follower by more than their 95 % intervals explain (Stalberg et
 *       al. 2018 for the phenomenon; the test is an engineering choice). Needs three potentials.
 *   <li>{@code axonal-block}: two followers vanish together more than independence explains (J
 *       Neurol Neurosurg Psychiatry 1972, 35:52 for the phenomenon).
 *   <li>{@code trigger-blocking}: the trigger is absent while a follower is present.
 * </ul>
 *
 * <p>Thread rule: immutable, safe to share.
 */
public final class UnitPatterns {

  private final EndPlateJitters endPlates;
  private final PatternSettings settings;

  /** Patterns by these settings; {@code jitter} says how many differences a pair needs. */
  public UnitPatterns(JitterSettings jitter, PatternSettings settings) {
    this.endPlates = new EndPlateJitters(jitter);
    this.settings = settings;
  }

  /** Judges one unit; an empty list if there is nothing to say. */
  public List<Finding> judge(UnitIntervals unit) {
    List<Finding> findings = new ArrayList<>();
    addTriggerAbnormal(unit, findings);
    addAxonalBlock(unit, findings);
    addTriggerBlocking(unit, findings);
    return List.copyOf(findings);
  }

  private void addTriggerAbnormal(UnitIntervals unit, List<Finding> findings) {
    if (unit.followers().size() < 2) {
      return;
    }
    List<OwnJitter> own = endPlates.separate(unit);
    Double trigger = own.get(0).jitterUs();
    if (trigger == null || trigger < settings.triggerJitterUs()) {
      return;
    }
    double greatest =
        own.stream()
            .skip(1)
            .map(OwnJitter::jitterUs)
            .filter(Objects::nonNull)
            .mapToDouble(Double::doubleValue)
            .max()
            .orElse(0);
    if (own.stream().skip(1).allMatch(follower -> exceeds(own.get(0), follower))) {
      findings.add(
          Finding.caution(
              FindingCode.TRIGGER_ABNORMAL,
              JitterFindings.text(
                  "All followers jitter together: the trigger %s has %.0f us of its own, no follower"
                      + " more than %.0f us. Choose another trigger.",
                  unit.trigger(), trigger, greatest),
              Evidence.of(
                  new Quantity("own jitter of the trigger", trigger, "us"),
                  new Quantity("greatest own jitter of a follower", greatest, "us"))));
    }
  }

  /**
   * Whether the 95 % interval of the difference of two own jitters, from their own intervals (Zou
   * and Donner 2008, Stat Med 27:1693), lies above zero.
   */
  private static boolean exceeds(OwnJitter one, OwnJitter other) {
    Double value = one.jitterUs();
    Double low = one.jitterLowUs();
    Double high = other.jitterHighUs();
    if (value == null || low == null || high == null) {
      return false;
    }
    double less = other.jitterUs() == null ? 0 : other.jitterUs();
    return value - less > Math.hypot(value - low, high - less);
  }

  private void addAxonalBlock(UnitIntervals unit, List<Finding> findings) {
    List<FollowedPotential> followers = unit.followers();
    for (int i = 0; i < followers.size(); i++) {
      for (int j = i + 1; j < followers.size(); j++) {
        FollowedPotential first = followers.get(i);
        FollowedPotential second = followers.get(j);
        JointBlocks.find(first.intervals(), second.intervals(), settings)
            .map(
                joint ->
                    Finding.caution(
                        FindingCode.AXONAL_BLOCK,
                        JitterFindings.text(
                            "%s and %s vanish together in %d of the %d sweeps in which either does:"
                                + " a branch of the axon, not the end-plates.",
                            first.potential(),
                            second.potential(),
                            joint.sweeps().size(),
                            joint.eitherBlocked()),
                        Evidence.ofSweeps(joint.sweeps())))
            .ifPresent(findings::add);
      }
    }
  }

  private static void addTriggerBlocking(UnitIntervals unit, List<Finding> findings) {
    TreeSet<Integer> absent = new TreeSet<>();
    TreeSet<Integer> all = new TreeSet<>();
    for (FollowedPotential follower : unit.followers()) {
      for (SweepInterval sweep : follower.intervals().sweeps()) {
        all.add(sweep.sweep());
        if (sweep.state() == SweepState.TRIGGER_ABSENT) {
          absent.add(sweep.sweep());
        }
      }
    }
    if (!absent.isEmpty()) {
      findings.add(
          Finding.caution(
              FindingCode.TRIGGER_BLOCKING,
              JitterFindings.text(
                  "The trigger %s is absent in %d of %d sweeps while a follower is present: the"
                      + " trigger blocks.",
                  unit.trigger(), absent.size(), all.size()),
              Evidence.ofSweeps(List.copyOf(absent))));
    }
  }
}
