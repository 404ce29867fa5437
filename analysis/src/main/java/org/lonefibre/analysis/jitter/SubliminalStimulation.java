package org.lonefibre.analysis.jitter;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.hipparchus.distribution.continuous.NormalDistribution;
import org.lonefibre.analysis.interval.IntervalSeries;
import org.lonefibre.analysis.interval.SweepInterval;
import org.lonefibre.analysis.interval.SweepState;
import org.lonefibre.signal.random.RandomStream;
import org.lonefibre.signal.recording.Evidence;
import org.lonefibre.signal.recording.Finding;
import org.lonefibre.signal.recording.FindingCode;

/**
 * Whether one end-plate is stimulated near the threshold of its axon: blocks crowd in a part of the
 * train, and the latencies near blocks are longer than the others. An end-plate that fails does so
 * at random. (Trontelj 1992 and Stalberg et al. 2017 for the phenomenon; the tests are an
 * engineering choice.)
 *
 * <ol>
 *   <li>Crowding: pairs of blocks at most {@value #CROWD} sweeps apart against their number in
 *       random order.
 *   <li>Latency: ranks of the present sweeps at most {@value #BESIDE} sweeps from a blocked one
 *       against the rest (Mann and Whitney), one-sided.
 *   <li>Fisher's sum of the two: pattern if its chance is below that of the settings, and each
 *       alone below 0.05.
 * </ol>
 */
final class SubliminalStimulation {

  private static final NormalDistribution NORMAL = new NormalDistribution();
  private static final double EACH_ALONE = 0.05;
  private static final int LEAST_SWEEPS = 3;
  private static final int CROWD = 10;
  private static final int BESIDE = 3;
  private static final int SHUFFLES = 1999;
  private static final long SEED = 20;

  private SubliminalStimulation() {}

  static Optional<Finding> find(IntervalSeries series, PatternSettings settings) {
    List<SweepInterval> judged =
        series.sweeps().stream()
            .filter(s -> s.state() == SweepState.PRESENT || s.state() == SweepState.BLOCKED)
            .toList();
    List<Integer> blocked =
        judged.stream()
            .filter(s -> s.state() == SweepState.BLOCKED)
            .map(SweepInterval::sweep)
            .toList();
    if (blocked.size() < settings.jointBlocks()) {
      return Optional.empty();
    }
    double crowding = chanceOfCrowding(judged);
    double later = chanceOfLonger(judged);
    double product = crowding * later;
    double together = product * (1 - Math.log(product));
    if (crowding >= EACH_ALONE || later >= EACH_ALONE || together >= settings.chanceProbability()) {
      return Optional.empty();
    }
    return Optional.of(
        Finding.caution(
            FindingCode.SUBLIMINAL_STIMULATION,
            JitterFindings.text(
                "The %d blocked sweeps crowd together and the latency near them is longer than"
                    + " elsewhere: the stimulus is probably below threshold at times. Raise it; the"
                    + " jitter must not fall.",
                blocked.size()),
            Evidence.ofSweeps(blocked)));
  }

  /** Chance that blocks in random order crowd as much, by shuffling with a fixed seed. */
  private static double chanceOfCrowding(List<SweepInterval> judged) {
    boolean[] blocked = new boolean[judged.size()];
    for (int i = 0; i < blocked.length; i++) {
      blocked[i] = judged.get(i).state() == SweepState.BLOCKED;
    }
    int seen = closePairs(blocked);
    RandomStream stream = RandomStream.of(SEED);
    int asMany = 1;
    for (int shuffle = 0; shuffle < SHUFFLES; shuffle++) {
      for (int i = blocked.length - 1; i > 0; i--) {
        int other = stream.below(i + 1);
        boolean kept = blocked[i];
        blocked[i] = blocked[other];
        blocked[other] = kept;
      }
      asMany += closePairs(blocked) >= seen ? 1 : 0;
    }
    return (double) asMany / (SHUFFLES + 1);
  }

  /** Pairs of blocks at most so many sweeps apart. */
  private static int closePairs(boolean[] blocked) {
    int pairs = 0;
    for (int i = 0; i < blocked.length; i++) {
      for (int k = i + 1; blocked[i] && k < Math.min(blocked.length, i + CROWD + 1); k++) {
        pairs += blocked[k] ? 1 : 0;
      }
    }
    return pairs;
  }

  private static boolean isBesideBlock(List<SweepInterval> judged, int place) {
    for (int i = Math.max(0, place - BESIDE); i <= place + BESIDE && i < judged.size(); i++) {
      if (judged.get(i).state() == SweepState.BLOCKED) {
        return true;
      }
    }
    return false;
  }

  private static double chanceOfLonger(List<SweepInterval> judged) {
    List<Double> beside = new ArrayList<>();
    List<Double> rest = new ArrayList<>();
    for (int i = 0; i < judged.size(); i++) {
      Double latency = judged.get(i).intervalUs();
      if (latency == null) {
        continue;
      }
      boolean near = isBesideBlock(judged, i);
      (near ? beside : rest).add(latency);
    }
    if (beside.size() < LEAST_SWEEPS || rest.size() < LEAST_SWEEPS) {
      return 1;
    }
    double wins = 0;
    for (double one : beside) {
      for (double other : rest) {
        wins += one > other ? 1 : one == other ? 0.5 : 0;
      }
    }
    double product = (double) beside.size() * rest.size();
    double spread = Math.sqrt(product * (beside.size() + rest.size() + 1) / 12);
    return 1 - NORMAL.cumulativeProbability((wins - product / 2 - 0.5) / spread);
  }
}
