package org.lonefibre.analysis.reference;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.study.PairResult;
import org.lonefibre.analysis.study.PairStatus;
import org.lonefibre.analysis.study.PotentialResult;
import org.lonefibre.signal.recording.Evidence;
import org.lonefibre.signal.recording.Evidence.Quantity;
import org.lonefibre.signal.recording.Finding;
import org.lonefibre.signal.recording.FindingCode;

/**
 * Whether a pair was recorded again later, under the name of another site: other discharges of the
 * same two fibres, the needle where it was.
 *
 * <p>Two measured pairs are taken for one if their mean intervals agree as far as their jitter lets
 * one know (three standard errors, and 8 us for what the needle did), the 95 % intervals of their
 * jitters overlap, and sizes and rise times of both potentials agree within 12 %. Intervals of
 * different pairs spread over milliseconds, sizes over an order of magnitude: by chance two pairs
 * agree so far about once in ten thousand. Engineering choices. A needle that was moved in between
 * changes sizes: then nothing is found.
 */
final class SamePairAgain {

  private static final double ERRORS = 3;
  private static final double NEEDLE_US = 8;
  private static final double ALIKE_RATIO = 0.12;
  private static final double MEAN_DIFFERENCE = 2 / Math.sqrt(Math.PI);

  private SamePairAgain() {}

  static Optional<Finding> among(List<StudySignal> signals) {
    List<String> found = new ArrayList<>();
    for (int i = 0; i < signals.size(); i++) {
      for (int j = i + 1; j < signals.size(); j++) {
        if (signals.get(i).site() != signals.get(j).site()
            && areAlike(signals.get(i), signals.get(j))) {
          found.add(signals.get(i).name() + " and " + signals.get(j).name());
        }
      }
    }
    return found.isEmpty()
        ? Optional.empty()
        : Optional.of(
            Finding.note(
                FindingCode.SAME_PAIR_TWICE,
                LimitFindings.text(
                    "Interval, jitter, sizes and rise times agree as if the same pair had been"
                        + " recorded again: %s. If so, leave one out.",
                    String.join("; ", found)),
                Evidence.of(new Quantity("signals found again", found.size(), ""))));
  }

  private static boolean areAlike(StudySignal first, StudySignal second) {
    if (!(first.signal() instanceof PairResult one)
        || !(second.signal() instanceof PairResult other)
        || one.status() != PairStatus.MEASURED
        || other.status() != PairStatus.MEASURED
        || first.potentials().size() != 2
        || second.potentials().size() != 2
        || !overlap(one, other)) {
      return false;
    }
    List<PotentialResult> a = first.potentials();
    List<PotentialResult> b = second.potentials();
    double reachUs = ERRORS * Math.hypot(errorUs(one), errorUs(other)) + NEEDLE_US;
    return near(one, other, 1, reachUs) && alike(a.get(0), b.get(0)) && alike(a.get(1), b.get(1))
        || near(one, other, -1, reachUs) && alike(a.get(0), b.get(1)) && alike(a.get(1), b.get(0));
  }

  private static boolean near(PairResult one, PairResult other, int sign, double reachUs) {
    Double a = one.meanIntervalUs();
    Double b = other.meanIntervalUs();
    return a != null && b != null && Math.abs(a - sign * b) <= reachUs;
  }

  /** Standard error of the mean interval. */
  private static double errorUs(PairResult pair) {
    Double jitter = pair.jitterUs();
    return jitter == null
        ? 0
        : jitter / MEAN_DIFFERENCE / Math.sqrt(Math.max(1, pair.presentSweeps()));
  }

  private static boolean overlap(PairResult one, PairResult other) {
    return below(one.correctedJitterLowUs(), other.correctedJitterHighUs())
        && below(other.correctedJitterLowUs(), one.correctedJitterHighUs());
  }

  private static boolean below(@Nullable Double low, @Nullable Double high) {
    return low != null && high != null && low <= high;
  }

  private static boolean alike(PotentialResult one, PotentialResult other) {
    return alike(one.amplitudeUv(), other.amplitudeUv())
        && alike(one.riseTimeUs(), other.riseTimeUs());
  }

  private static boolean alike(@Nullable Double one, @Nullable Double other) {
    return one != null
        && other != null
        && Math.abs(one - other) <= ALIKE_RATIO * Math.max(one, other);
  }
}
