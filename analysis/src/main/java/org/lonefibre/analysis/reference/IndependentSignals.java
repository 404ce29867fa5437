package org.lonefibre.analysis.reference;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Predicate;
import org.lonefibre.analysis.study.PairResult;

/**
 * The signals of a study that may be counted together: of a unit with {@code n} potentials at most
 * {@code n - 1} pairs, each bringing in a potential not yet reached. End-plates all count.
 */
final class IndependentSignals {

  private final Map<String, String> leaders = new HashMap<>();

  private IndependentSignals() {}

  static List<StudySignal> among(List<StudySignal> signals, Predicate<StudySignal> counts) {
    IndependentSignals reached = new IndependentSignals();
    List<StudySignal> kept = new ArrayList<>();
    for (StudySignal signal : signals) {
      if (counts.test(signal) && reached.bringsInAnother(signal)) {
        kept.add(signal);
      }
    }
    return kept;
  }

  private boolean bringsInAnother(StudySignal signal) {
    if (!(signal.signal() instanceof PairResult pair)) {
      return true;
    }
    String unit = signal.site() + "/" + signal.unit() + "/";
    String trigger = leader(unit + pair.triggerPotential());
    String paired = leader(unit + pair.pairedPotential());
    leaders.put(trigger, paired);
    return !trigger.equals(paired);
  }

  private String leader(String potential) {
    String found = potential;
    String next = leaders.getOrDefault(found, found);
    while (!next.equals(found)) {
      found = next;
      next = leaders.getOrDefault(found, found);
    }
    return found;
  }
}
