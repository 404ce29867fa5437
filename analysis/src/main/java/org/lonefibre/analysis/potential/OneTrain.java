package org.lonefibre.analysis.potential;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.stream.IntStream;
import org.lonefibre.signal.robust.RobustStatistics;

/**
 * Tells whether two units fire as one does: each where the other does not, by turns, never sooner
 * than one unit recovers. Two units know nothing of each other and often fire together; two parts
 * of one never do.
 *
 * <ul>
 *   <li>Thread rule: no state.
 * </ul>
 */
final class OneTrain {

  private static final int FEWEST = 10;
  private static final double LEAST_OWN = 0.5;
  private static final double SOON = 0.45;
  private static final double MOST_SOON = 0.03;

  /** Of the turns that chance gives: units that fire one after the other do not take turns. */
  private static final double LEAST_TURNS = 0.5;

  private OneTrain() {}

  private record Shot(double place, int segment, boolean isOther) {}

  /**
   * The discharges of the second unit that belong to the train; empty if the two are not one. What
   * lies on a discharge of the first is the same discharge, seen twice.
   *
   * @param shift what is taken off places of the second to make them the first's
   * @param same how near two places of one discharge lie, in samples
   */
  static int[] discharges(UnitTrack one, UnitTrack other, double shift, double same) {
    int[] more = apart(one, other, shift, same);
    if (more.length < Math.max(FEWEST, LEAST_OWN * other.discharges)) {
      return new int[0];
    }
    List<Shot> train = train(one, other, more, shift);
    double[] intervals =
        IntStream.range(1, train.size())
            .filter(k -> train.get(k).segment == train.get(k - 1).segment)
            .mapToDouble(k -> train.get(k).place - train.get(k - 1).place)
            .toArray();
    if (intervals.length == 0) {
      return new int[0];
    }
    double soon = SOON * RobustStatistics.median(intervals.clone());
    long tooSoon = Arrays.stream(intervals).filter(interval -> interval < soon).count();
    long turns =
        IntStream.range(1, train.size())
            .filter(k -> train.get(k).isOther != train.get(k - 1).isOther)
            .count();
    double usualTurns = 2.0 * one.discharges * more.length / train.size();
    return tooSoon <= MOST_SOON * intervals.length && turns >= LEAST_TURNS * usualTurns
        ? apart(one, other, shift, soon)
        : new int[0];
  }

  private static List<Shot> train(UnitTrack one, UnitTrack other, int[] more, double shift) {
    List<Shot> train = new ArrayList<>();
    for (int d = 0; d < one.discharges; d++) {
      train.add(new Shot(one.reference[d], one.segment[d], false));
    }
    for (int d : more) {
      train.add(new Shot(other.reference[d] - shift, other.segment[d], true));
    }
    train.sort(Comparator.comparingDouble(Shot::place));
    return train;
  }

  private static int[] apart(UnitTrack one, UnitTrack other, double shift, double soon) {
    return IntStream.range(0, other.discharges)
        .filter(
            d -> {
              double place = other.reference[d] - shift;
              return Math.abs(one.nearest(place) - place) >= soon;
            })
        .toArray();
  }
}
