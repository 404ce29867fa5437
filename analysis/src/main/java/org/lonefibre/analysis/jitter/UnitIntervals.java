package org.lonefibre.analysis.jitter;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * All intervals of one motor unit, or of one stimulated recording, from one trigger.
 *
 * @param trigger identity of the trigger potential, or a word for the stimulus
 * @param triggerErrorUs typical standard error of the trigger's arrival, or of the stimulus; null
 *     if unknown
 * @param followers the other potentials
 */
public record UnitIntervals(
    String trigger, @Nullable Double triggerErrorUs, List<FollowedPotential> followers) {

  /** Copies the list. */
  public UnitIntervals {
    followers = List.copyOf(followers);
  }
}
