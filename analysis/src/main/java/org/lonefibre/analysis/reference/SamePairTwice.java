package org.lonefibre.analysis.reference;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.hipparchus.stat.correlation.PearsonsCorrelation;
import org.hipparchus.stat.correlation.SpearmansCorrelation;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.study.EndPlateResult;
import org.lonefibre.analysis.study.PairResult;
import org.lonefibre.signal.recording.Evidence;
import org.lonefibre.signal.recording.Evidence.Quantity;
import org.lonefibre.signal.recording.Finding;
import org.lonefibre.signal.recording.FindingCode;

/**
 * Whether the same discharges are in a study twice: a file given under two names, stretches that
 * overlap, two channels of one needle.
 *
 * <p>Two signals of different sites are laid beside each other with every shift that leaves 20
 * changes from sweep to sweep in common. They are the same if the changes of their intervals agree
 * (either sign: trigger and paired potential may be exchanged), by value and by rank, and, between
 * pairs, the changes of the inter-discharge interval too. Jitter is independent between discharges:
 * 20 changes of two recordings agree so far about once in a hundred million. (Engineering choice.)
 *
 * <ul>
 *   <li>The first {@value #MOST_SWEEPS} sweeps are compared.
 *   <li>A pair recorded again a minute later is not found: its discharges are others.
 * </ul>
 */
final class SamePairTwice {

  private static final int MOST_SWEEPS = 400;
  private static final int LEAST_CHANGES = 20;
  private static final double LEAST_CORRELATION = 0.9;
  private static final double LEAST_RANK_CORRELATION = 0.85;
  private static final double MOST_MEAN_DIFFERENCE_US = 50;

  private SamePairTwice() {}

  static Optional<Finding> among(List<StudySignal> signals) {
    List<Track> tracks = signals.stream().map(Track::new).toList();
    List<String> found = new ArrayList<>();
    for (int i = 0; i < tracks.size(); i++) {
      for (int j = i + 1; j < tracks.size(); j++) {
        Track first = tracks.get(i);
        Track second = tracks.get(j);
        if (first.signal.site() != second.signal.site() && areTheSame(first, second)) {
          found.add(first.signal.name() + " and " + second.signal.name());
        }
      }
    }
    if (found.isEmpty()) {
      return Optional.empty();
    }
    return Optional.of(
        Finding.caution(
            FindingCode.SAME_PAIR_TWICE,
            LimitFindings.text(
                "The same discharges seem to be in the study twice, interval by interval: %s. Both"
                    + " count; leave one out.",
                String.join("; ", found)),
            Evidence.of(new Quantity("signals found twice", found.size(), ""))));
  }

  private static boolean areTheSame(Track first, Track second) {
    if (first.voluntary != second.voluntary
        || Math.abs(first.meanUs - second.meanUs) > MOST_MEAN_DIFFERENCE_US) {
      return false;
    }
    int length = Math.min(first.size(), second.size());
    if (length < LEAST_CHANGES) {
      return false;
    }
    for (int shift = LEAST_CHANGES - second.size();
        shift <= first.size() - LEAST_CHANGES;
        shift++) {
      if (agree(first, second, shift)) {
        return true;
      }
    }
    return false;
  }

  private static boolean agree(Track first, Track second, int shift) {
    List<Double> a = new ArrayList<>();
    List<Double> b = new ArrayList<>();
    List<Double> stepsA = new ArrayList<>();
    List<Double> stepsB = new ArrayList<>();
    int end = Math.min(first.size(), second.size() + shift);
    for (int i = Math.max(0, shift); i < end; i++) {
      Double one = first.changes.get(i);
      Double two = second.changes.get(i - shift);
      if (one != null && two != null) {
        a.add(one);
        b.add(two);
        stepsA.add(first.stepsS.get(i));
        stepsB.add(second.stepsS.get(i - shift));
      }
    }
    if (a.size() < LEAST_CHANGES) {
      return false;
    }
    double[] x = array(a);
    double[] y = array(b);
    // a constant series has no correlation: the comparison is false then
    if (!(Math.abs(new PearsonsCorrelation().correlation(x, y)) > LEAST_CORRELATION)
        || !(Math.abs(new SpearmansCorrelation().correlation(x, y)) > LEAST_RANK_CORRELATION)) {
      return false;
    }
    return !first.voluntary
        || new PearsonsCorrelation().correlation(array(stepsA), array(stepsB)) > LEAST_CORRELATION;
  }

  private static double[] array(List<Double> values) {
    return values.stream().mapToDouble(Double::doubleValue).toArray();
  }

  /** Change of the interval, and time, from each sweep to the next. */
  private static final class Track {

    final StudySignal signal;
    final boolean voluntary;
    final double meanUs;
    final List<@Nullable Double> changes = new ArrayList<>();
    final List<Double> stepsS = new ArrayList<>();

    Track(StudySignal signal) {
      this.signal = signal;
      if (signal.signal() instanceof PairResult pair) {
        voluntary = true;
        Double mean = pair.meanIntervalUs();
        meanUs = mean == null ? 0 : Math.abs(mean);
        for (int i = 1; i < Math.min(MOST_SWEEPS, pair.intervals().size()); i++) {
          var last = pair.intervals().get(i - 1);
          var next = pair.intervals().get(i);
          add(last.intervalUs(), next.intervalUs(), next.timeS() - last.timeS());
        }
      } else {
        EndPlateResult endPlate = (EndPlateResult) signal.signal();
        voluntary = false;
        Double mean = endPlate.meanLatencyUs();
        meanUs = mean == null ? 0 : mean;
        for (int i = 1; i < Math.min(MOST_SWEEPS, endPlate.latencies().size()); i++) {
          var last = endPlate.latencies().get(i - 1);
          var next = endPlate.latencies().get(i);
          add(last.latencyUs(), next.latencyUs(), next.timeS() - last.timeS());
        }
      }
    }

    private void add(@Nullable Double lastUs, @Nullable Double nextUs, double stepS) {
      changes.add(lastUs == null || nextUs == null ? null : nextUs - lastUs);
      stepsS.add(stepS);
    }

    int size() {
      return changes.size();
    }
  }
}
