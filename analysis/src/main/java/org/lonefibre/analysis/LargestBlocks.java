package org.lonefibre.analysis;

import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.lonefibre.analysis.interval.SweepInterval;
import org.lonefibre.analysis.interval.SweepState;
import org.lonefibre.analysis.jitter.UnitIntervals;
import org.lonefibre.analysis.study.PotentialResult;
import org.lonefibre.signal.recording.Evidence;
import org.lonefibre.signal.recording.Finding;
import org.lonefibre.signal.recording.FindingCode;

/**
 * Says why the largest potential of a unit, which usually triggers, does not: it blocks, and a
 * steadier one was taken. Its blocks are counted as those of a paired potential.
 */
final class LargestBlocks {

  private static final double CLEARLY_LARGER = 1.2;
  private static final int LEAST_BLOCKS = 2;

  private LargestBlocks() {}

  static Optional<Finding> find(List<PotentialResult> potentials, UnitIntervals together) {
    PotentialResult largest =
        potentials.stream().max(Comparator.comparingDouble(PotentialResult::snr)).orElseThrow();
    double trigger =
        potentials.stream()
            .filter(one -> one.id().equals(together.trigger()))
            .mapToDouble(PotentialResult::snr)
            .findFirst()
            .orElse(Double.POSITIVE_INFINITY);
    if (largest.snr() < CLEARLY_LARGER * trigger) {
      return Optional.empty();
    }
    return together.followers().stream()
        .filter(follower -> follower.potential().equals(largest.id()))
        .map(follower -> blocked(follower.intervals().sweeps()))
        .filter(sweeps -> sweeps.size() >= LEAST_BLOCKS)
        .findFirst()
        .map(
            sweeps ->
                Finding.note(
                    FindingCode.TRIGGER_BLOCKING,
                    String.format(
                        Locale.ROOT,
                        "The largest potential %s is absent in %d sweeps while %s is present: it"
                            + " blocks, and %s serves as the trigger.",
                        largest.id(),
                        sweeps.size(),
                        together.trigger(),
                        together.trigger()),
                    Evidence.ofSweeps(sweeps)));
  }

  private static List<Integer> blocked(List<SweepInterval> sweeps) {
    return sweeps.stream()
        .filter(sweep -> sweep.state() == SweepState.BLOCKED)
        .map(SweepInterval::sweep)
        .toList();
  }
}
