package org.lonefibre.analysis.potential;

import java.util.stream.IntStream;

/**
 * Makes two units one because a person says so. Units that discharge together, at a fixed time of
 * each other, share their discharges and bring their potentials; others share the potentials that
 * are most alike and bring their discharges.
 */
final class UnitJoin {

  private static final double LOCKED_US = 600;
  private static final double LOCKED_SHARE = 0.5;
  private static final double SAME_DISCHARGE_MS = 3;

  private final double samplesPerUs;

  UnitJoin(double samplesPerUs) {
    this.samplesPerUs = samplesPerUs;
  }

  UnitTrack join(UnitTrack one, UnitTrack other) {
    UnitTrack locked = new LockedUnits(samplesPerUs, LOCKED_US, LOCKED_SHARE).join(one, other);
    return locked == null ? discharges(one, other, shift(one, other)) : locked;
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
                  return Math.abs(one.nearest(place) - place) > same;
                })
            .toArray();
    return UnitMerger.union(one, other, more, shift);
  }
}
