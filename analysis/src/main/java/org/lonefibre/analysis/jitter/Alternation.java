package org.lonefibre.analysis.jitter;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.lonefibre.analysis.interval.IntervalSeries;
import org.lonefibre.analysis.interval.SweepInterval;
import org.lonefibre.analysis.interval.SweepState;
import org.lonefibre.signal.recording.Evidence;
import org.lonefibre.signal.recording.Finding;
import org.lonefibre.signal.recording.FindingCode;

/**
 * Whether two evoked potentials exclude each other: almost every stimulus evokes one of them, none
 * both. Two end-plates that block on their own now and then fail together or come together.
 * (Engineering choice.)
 *
 * @param sweepsOfRarer sweeps in which the rarer of the two comes
 * @param judged sweeps in which both can be judged
 */
record Alternation(List<Integer> sweepsOfRarer, int judged) {

  private static final int LEAST_SWEEPS = 20;
  private static final int LEAST_OF_EACH = 5;
  private static final double MOST_EXCEPTIONS = 0.03;

  static Optional<Alternation> find(IntervalSeries first, IntervalSeries second) {
    Map<Integer, SweepState> states = new HashMap<>();
    first.sweeps().forEach(sweep -> states.put(sweep.sweep(), sweep.state()));
    List<Integer> onlyFirst = new ArrayList<>();
    List<Integer> onlySecond = new ArrayList<>();
    int exceptions = 0;
    for (SweepInterval sweep : second.sweeps()) {
      SweepState other = states.getOrDefault(sweep.sweep(), SweepState.OBSCURED);
      if (!isJudged(other) || !isJudged(sweep.state())) {
        continue;
      }
      if (other == sweep.state()) {
        exceptions++;
      } else {
        (other == SweepState.PRESENT ? onlyFirst : onlySecond).add(sweep.sweep());
      }
    }
    int judged = exceptions + onlyFirst.size() + onlySecond.size();
    List<Integer> rarer = onlyFirst.size() < onlySecond.size() ? onlyFirst : onlySecond;
    return judged >= LEAST_SWEEPS
            && rarer.size() >= LEAST_OF_EACH
            && exceptions <= MOST_EXCEPTIONS * judged
        ? Optional.of(new Alternation(List.copyOf(rarer), judged))
        : Optional.empty();
  }

  Finding finding(String first, String second) {
    return Finding.exclusion(
        FindingCode.TWO_CLUSTERS,
        JitterFindings.text(
            "Each stimulus evokes %s or %s, never both (%d sweeps, the rarer in %d): one fibre that"
                + " is reached two ways, as in an axon reflex or at a threshold. Neither blocks; no"
                + " single jitter describes them.",
            first, second, judged, sweepsOfRarer.size()),
        Evidence.ofSweeps(sweepsOfRarer));
  }

  private static boolean isJudged(SweepState state) {
    return state == SweepState.PRESENT || state == SweepState.BLOCKED;
  }
}
