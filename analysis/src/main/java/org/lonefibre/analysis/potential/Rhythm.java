package org.lonefibre.analysis.potential;

import java.util.Arrays;
import java.util.stream.IntStream;

/** The intervals from one discharge of a unit to its next, and how steady they are. */
final class Rhythm {

  private static final double SHORTEST = 0.6;
  private static final double LONGEST = 1.6;

  private Rhythm() {}

  /** Intervals between successive discharges of those named, none across a gap; in samples. */
  static double[] intervals(UnitTrack unit, int[] discharges) {
    return IntStream.range(1, discharges.length)
        .filter(k -> unit.segment[discharges[k]] == unit.segment[discharges[k - 1]])
        .mapToDouble(k -> unit.reference[discharges[k]] - unit.reference[discharges[k - 1]])
        .toArray();
  }

  /** Intervals between all successive discharges of a unit, none across a gap; in samples. */
  static double[] intervals(UnitTrack unit) {
    return intervals(unit, IntStream.range(0, unit.discharges).toArray());
  }

  /** Share of the intervals that are near a usual one, 0 to 1; 1 if there are none. */
  static double steadyShare(double[] intervals, double usual) {
    long near =
        Arrays.stream(intervals)
            .filter(interval -> interval > SHORTEST * usual && interval < LONGEST * usual)
            .count();
    return intervals.length == 0 ? 1 : (double) near / intervals.length;
  }
}
