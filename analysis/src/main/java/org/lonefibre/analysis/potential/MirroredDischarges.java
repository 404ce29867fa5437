package org.lonefibre.analysis.potential;

import java.util.stream.IntStream;

/**
 * Straightens a unit whose discharges were taken up now at one potential, now at another of like
 * shape. Each of the two then seems to have the other at its side, behind it in some discharges and
 * as far before it in the rest, never both: three places for two potentials. The rarer discharges
 * are moved.
 *
 * <p>Two units in one could only look so if their intervals were as long; they are told apart by
 * the rest of their potentials later. Engineering choices, by simulation.
 */
final class MirroredDischarges {

  private static final double AS_FAR_US = 60;
  private static final double TOGETHER_SHARE = 0.1;
  private static final double EITHER_SHARE = 0.6;
  private static final int FEWEST = 4;

  private final double asFar;

  MirroredDischarges(double samplesPerUs) {
    this.asFar = AS_FAR_US * samplesPerUs;
  }

  /** The unit with all discharges taken up at one potential, to be settled: itself if they are. */
  UnitTrack straightened(UnitTrack unit) {
    int leader = unit.leader();
    for (int behind = 0; behind < unit.potentials; behind++) {
      for (int before = 0; before < unit.potentials; before++) {
        double lag = unit.lag[behind] - unit.lag[leader];
        double opposite = unit.lag[leader] - unit.lag[before];
        if (behind != before
            && behind != leader
            && before != leader
            && Math.abs(lag - opposite) < asFar
            && unit.presentCount(behind) >= unit.presentCount(before)
            && areTwoSides(unit, behind, before)) {
          return moved(unit, leader, behind, before);
        }
      }
    }
    return unit;
  }

  private static boolean areTwoSides(UnitTrack unit, int p, int q) {
    int either = 0;
    int both = 0;
    for (int d = 0; d < unit.discharges; d++) {
      either += unit.isPresent(d, p) || unit.isPresent(d, q) ? 1 : 0;
      both += unit.isPresent(d, p) && unit.isPresent(d, q) ? 1 : 0;
    }
    return unit.presentCount(q) >= FEWEST
        && either >= EITHER_SHARE * unit.discharges
        && both <= TOGETHER_SHARE * Math.min(unit.presentCount(p), unit.presentCount(q));
  }

  /** Those with the rarer side are moved by its distance, so that it is where the leader was. */
  private static UnitTrack moved(UnitTrack unit, int leader, int kept, int rarer) {
    UnitTrack straight = unit.copy();
    double away = unit.lag[rarer] - unit.lag[leader];
    for (int d = 0; d < unit.discharges; d++) {
      if (unit.isPresent(d, rarer) && !unit.isPresent(d, kept)) {
        straight.takeUpAt(d, straight.reference[d] + away);
      }
    }
    int[] left = IntStream.range(0, unit.potentials).filter(p -> p != rarer).toArray();
    return straight.isInOrder() ? straight.with(left, new double[0]) : unit;
  }
}
