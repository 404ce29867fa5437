package org.lonefibre.analysis.potential;

import java.util.stream.IntStream;
import org.lonefibre.signal.robust.RobustStatistics;

/**
 * How uneven the discharges of a unit are: what it would take to say size, interval and presence of
 * each potential in each of them, in natural units of information but for a constant per discharge.
 * Discharges of two units in one track need more than in two, for their sizes, intervals and
 * failures scatter more.
 *
 * <ul>
 *   <li>Thread rule: safe.
 * </ul>
 */
final class Unevenness {

  private static final int FEWEST = 5;
  private static final double SIZE_FLOOR = 0.01;
  private static final double INTERVAL_FLOOR_US = 5;

  private final double intervalFloor;

  Unevenness(double samplesPerUs) {
    this.intervalFloor = INTERVAL_FLOOR_US * samplesPerUs;
  }

  double of(UnitTrack unit) {
    return IntStream.range(0, unit.potentials)
        .mapToDouble(p -> ofPresence(unit, p) + ofSizes(unit, p) + ofIntervals(unit, p))
        .sum();
  }

  private static double ofPresence(UnitTrack unit, int p) {
    int present = unit.presentCount(p);
    return surprise(present, unit.discharges)
        + surprise(unit.discharges - present, unit.discharges);
  }

  private static double surprise(int count, int all) {
    return count == 0 ? 0 : -count * Math.log((double) count / all);
  }

  private static double ofSizes(UnitTrack unit, int p) {
    return ofSpread(
        IntStream.range(0, unit.discharges)
            .filter(d -> unit.isPresent(d, p))
            .mapToDouble(d -> unit.scale[d][p])
            .toArray(),
        SIZE_FLOOR);
  }

  private double ofIntervals(UnitTrack unit, int p) {
    int leader = unit.leader();
    return p == leader
        ? 0
        : ofSpread(
            IntStream.range(0, unit.discharges)
                .filter(d -> unit.isPresent(d, p) && unit.isPresent(d, leader))
                .mapToDouble(d -> unit.arrival[d][p] - unit.arrival[d][leader])
                .toArray(),
            intervalFloor);
  }

  private static double ofSpread(double[] values, double floor) {
    return values.length < FEWEST
        ? 0
        : values.length * Math.log(Math.max(floor, RobustStatistics.standardDeviation(values)));
  }
}
