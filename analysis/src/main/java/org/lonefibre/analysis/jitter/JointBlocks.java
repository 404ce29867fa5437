package org.lonefibre.analysis.jitter;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.hipparchus.distribution.discrete.HypergeometricDistribution;
import org.lonefibre.analysis.interval.IntervalSeries;
import org.lonefibre.analysis.interval.SweepInterval;
import org.lonefibre.analysis.interval.SweepState;

/**
 * Whether two potentials vanish together more often than independence explains (Fisher's exact
 * test, one-sided).
 */
record JointBlocks(List<Integer> sweeps, int eitherBlocked, int judged, double chance) {

  static Optional<JointBlocks> find(
      IntervalSeries first, IntervalSeries second, PatternSettings settings) {
    Map<Integer, SweepState> states = new HashMap<>();
    first.sweeps().forEach(s -> states.put(s.sweep(), s.state()));
    int judged = 0;
    int firstBlocked = 0;
    int secondBlocked = 0;
    List<Integer> joint = new ArrayList<>();
    for (SweepInterval sweep : second.sweeps()) {
      SweepState other = states.get(sweep.sweep());
      if (other == null || !isJudged(other) || !isJudged(sweep.state())) {
        continue;
      }
      judged++;
      boolean one = other == SweepState.BLOCKED;
      boolean two = sweep.state() == SweepState.BLOCKED;
      firstBlocked += one ? 1 : 0;
      secondBlocked += two ? 1 : 0;
      if (one && two) {
        joint.add(sweep.sweep());
      }
    }
    int either = firstBlocked + secondBlocked - joint.size();
    if (joint.size() < settings.jointBlocks()
        || joint.size() < settings.jointBlockRatio() * either) {
      return Optional.empty();
    }
    double chance =
        new HypergeometricDistribution(judged, firstBlocked, secondBlocked)
            .upperCumulativeProbability(joint.size());
    return chance < settings.chanceProbability()
        ? Optional.of(new JointBlocks(List.copyOf(joint), either, judged, chance))
        : Optional.empty();
  }

  private static boolean isJudged(SweepState state) {
    return state == SweepState.PRESENT || state == SweepState.BLOCKED;
  }
}
