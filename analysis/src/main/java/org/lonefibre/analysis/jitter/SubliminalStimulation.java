package org.lonefibre.analysis.jitter;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.hipparchus.distribution.continuous.NormalDistribution;
import org.lonefibre.analysis.interval.IntervalSeries;
import org.lonefibre.analysis.interval.SweepInterval;
import org.lonefibre.analysis.interval.SweepState;
import org.lonefibre.signal.recording.Evidence;
import org.lonefibre.signal.recording.Finding;
import org.lonefibre.signal.recording.FindingCode;

/**
 * Whether one end-plate is stimulated near the threshold of its axon: blocks come in runs, and the
 * latencies beside blocks are longer than the others. An end-plate that fails does so at random.
 * (Trontelj 1992 and Stalberg et al. 2017 for the phenomenon; the tests are an engineering choice.)
 *
 * <ol>
 *   <li>Runs: the number of changes between present and blocked against its expectation at random
 *       order (Wald and Wolfowitz), one-sided.
 *   <li>Latency: ranks of the present sweeps next to a blocked one against the rest (Mann and
 *       Whitney), one-sided.
 *   <li>Fisher's sum of the two: pattern if its chance is below that of the settings, and each
 *       alone below 0.05.
 * </ol>
 */
final class SubliminalStimulation {

  private static final NormalDistribution NORMAL = new NormalDistribution();
  private static final double EACH_ALONE = 0.05;
  private static final int LEAST_SWEEPS = 3;

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
    double runs = chanceOfRuns(judged, blocked.size());
    double later = chanceOfLonger(judged);
    double product = runs * later;
    double together = product * (1 - Math.log(product));
    if (runs >= EACH_ALONE || later >= EACH_ALONE || together >= settings.chanceProbability()) {
      return Optional.empty();
    }
    return Optional.of(
        Finding.caution(
            FindingCode.SUBLIMINAL_STIMULATION,
            JitterFindings.text(
                "The %d blocked sweeps come in runs and the latency beside them is longer than"
                    + " elsewhere: the stimulus is probably below threshold at times. Raise it; the"
                    + " jitter must not fall.",
                blocked.size()),
            Evidence.ofSweeps(blocked)));
  }

  private static double chanceOfRuns(List<SweepInterval> judged, int blocked) {
    double n = judged.size();
    double present = n - blocked;
    if (present == 0) {
      return 1;
    }
    int changes = 0;
    for (int i = 1; i < judged.size(); i++) {
      changes += judged.get(i).state() != judged.get(i - 1).state() ? 1 : 0;
    }
    double product = 2 * blocked * present;
    double mean = product / n;
    double variance = product * (product - n) / (n * n * (n - 1));
    return variance <= 0
        ? 1
        : NORMAL.cumulativeProbability((changes - mean + 0.5) / Math.sqrt(variance));
  }

  private static double chanceOfLonger(List<SweepInterval> judged) {
    List<Double> beside = new ArrayList<>();
    List<Double> rest = new ArrayList<>();
    for (int i = 0; i < judged.size(); i++) {
      Double latency = judged.get(i).intervalUs();
      if (latency == null) {
        continue;
      }
      boolean near =
          (i > 0 && judged.get(i - 1).state() == SweepState.BLOCKED)
              || (i + 1 < judged.size() && judged.get(i + 1).state() == SweepState.BLOCKED);
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
