package org.lonefibre.analysis.potential;

import java.util.Arrays;
import java.util.stream.IntStream;
import org.lonefibre.signal.robust.RobustStatistics;

/**
 * Makes two units one because a person says so. Units that discharge together, at a fixed time of
 * each other, share their discharges and bring their potentials; others share the potentials that
 * are most alike and bring their discharges.
 */
final class UnitJoin {

  private static final double TOGETHER_MS = 15;
  private static final double LOCKED_US = 600;
  private static final double LOCKED_SHARE = 0.5;
  private static final double SAME_DISCHARGE_MS = 3;

  private final double samplesPerUs;

  UnitJoin(double samplesPerUs) {
    this.samplesPerUs = samplesPerUs;
  }

  UnitTrack join(UnitTrack one, UnitTrack other) {
    double[] delays = delays(one, other);
    if (delays.length >= LOCKED_SHARE * Math.min(one.discharges, other.discharges)) {
      double usual = RobustStatistics.median(delays.clone());
      long near =
          Arrays.stream(delays)
              .filter(delay -> Math.abs(delay - usual) < LOCKED_US * samplesPerUs)
              .count();
      if (near >= LOCKED_SHARE * Math.min(one.discharges, other.discharges)) {
        return one.with(
            IntStream.range(0, one.potentials).toArray(),
            Arrays.stream(other.lag).map(lag -> lag + usual).toArray());
      }
    }
    return discharges(one, other, shift(one, other));
  }

  /** From each discharge of the first to that of the second nearest to it, if it is near. */
  private double[] delays(UnitTrack one, UnitTrack other) {
    double[] delays = new double[one.discharges];
    int n = 0;
    for (int d = 0; d < one.discharges; d++) {
      double delay = nearest(other, one.reference[d]) - one.reference[d];
      if (Math.abs(delay) < TOGETHER_MS * 1000 * samplesPerUs) {
        delays[n++] = delay;
      }
    }
    return Arrays.copyOf(delays, n);
  }

  private static double nearest(UnitTrack unit, double place) {
    int next = unit.firstAtOrAfter(place);
    double after = next < unit.discharges ? unit.reference[next] : Double.POSITIVE_INFINITY;
    double before = next > 0 ? unit.reference[next - 1] : Double.NEGATIVE_INFINITY;
    return after - place < place - before ? after : before;
  }

  /** What is added to places of the second for its potential most alike one of the first to fit. */
  private static double shift(UnitTrack one, UnitTrack other) {
    double most = -1;
    double shift = 0;
    for (int p = 0; p < one.potentials; p++) {
      for (int q = 0; q < other.potentials; q++) {
        PotentialShape a = one.shape[p];
        PotentialShape b = other.shape[q];
        double size = Math.sqrt(a.energy() * b.energy());
        double like = 0;
        for (double at = b.origin() - 2; at <= b.origin() + 2; at += 0.5) {
          like = Math.max(like, a.project(b.samples(), at));
        }
        // Alike in shape, and large: small ones are alike by chance.
        double worth = like / size * Math.min(a.energy(), b.energy());
        if (worth > most) {
          most = worth;
          shift = one.lag[p] - other.lag[q];
        }
      }
    }
    return shift;
  }

  private UnitTrack discharges(UnitTrack one, UnitTrack other, double shift) {
    double same = SAME_DISCHARGE_MS * 1000 * samplesPerUs;
    int[] more =
        IntStream.range(0, other.discharges)
            .filter(
                d -> {
                  double place = other.reference[d] - shift;
                  return Math.abs(nearest(one, place) - place) > same;
                })
            .toArray();
    return UnitMerger.union(one, other, more, shift);
  }
}
