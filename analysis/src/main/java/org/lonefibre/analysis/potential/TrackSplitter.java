package org.lonefibre.analysis.potential;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.hipparchus.distribution.discrete.BinomialDistribution;
import org.lonefibre.signal.robust.RobustStatistics;

/**
 * Parts motor units that were followed as one: their potentials are alike, but intervals and sizes
 * fall into groups, and together they fire as irregularly as no single unit does. A group is taken
 * for a unit only if its own rhythm says so: its discharges keep apart from each other, but not
 * from those of the rest.
 */
final class TrackSplitter {

  private static final int FEWEST = 40;
  private static final int FEWEST_HALVED = 8;
  private static final int MOST_GROUPS = 5;
  private static final double STEADY = 0.85;
  private static final double SOON = 0.5;
  private static final double USUAL_PROBABILITY = 0.3;
  private static final double MOST_SOON = 0.12;

  /** In discharges: what one that comes too soon costs a group. */
  private static final double SOON_COST = 10;

  /** Near discharges that are not of the group, of its own. */
  private static final double LEAST_MIXED = 0.1;

  private static final double LARGEST_CHANCE = 0.001;
  private static final double INTERVAL_US = 20;
  private static final double SIZE = 0.03;
  private static final double FARTHEST = 10;

  private final double samplesPerUs;

  TrackSplitter(double samplesPerUs) {
    this.samplesPerUs = samplesPerUs;
  }

  /** The unit, or those it consists of. */
  List<UnitTrack> split(UnitTrack unit) {
    int[] all = IntStream.range(0, unit.discharges).toArray();
    if (unit.potentials < 2 || all.length < 2 * FEWEST || isSteady(unit)) {
      return List.of(unit);
    }
    double[][] features = features(unit);
    int[] own =
        IntStream.rangeClosed(2, MOST_GROUPS)
            .boxed()
            .flatMap(count -> groups(features, count))
            .filter(group -> group.length < all.length && isUnit(unit, group))
            .max(Comparator.comparingDouble(group -> worth(unit, group)))
            .orElse(all);
    if (own == all) {
      return List.of(unit);
    }
    int[] rest = IntStream.of(all).filter(d -> Arrays.binarySearch(own, d) < 0).toArray();
    List<UnitTrack> parts = new ArrayList<>();
    parts.add(unit.only(own));
    parts.addAll(split(unit.only(rest)));
    return parts;
  }

  /**
   * Groups by medians, which what is odd does not move, and by a mixture of normal laws, which
   * knows that sizes and intervals may err together.
   */
  private static Stream<int[]> groups(double[][] features, int count) {
    return Stream.of(MedianGroups.of(features, count), MixtureGroups.of(features, count))
        .flatMap(group -> IntStream.range(0, count).mapToObj(g -> members(group, g)));
  }

  private static int[] members(int[] group, int wanted) {
    return IntStream.range(0, group.length).filter(d -> group[d] == wanted).toArray();
  }

  /** Large groups first, but not those that fire sooner than they may. */
  private static double worth(UnitTrack unit, int[] own) {
    return own.length - SOON_COST * soonCount(Rhythm.intervals(unit, own));
  }

  /** The two groups of discharges that sizes and intervals fall into, whatever their rhythm. */
  List<UnitTrack> halve(UnitTrack unit) {
    int[] group = MedianGroups.of(features(unit), 2);
    List<UnitTrack> parts = new ArrayList<>();
    for (int g = 0; g < 2; g++) {
      int[] own = members(group, g);
      if (own.length < FEWEST_HALVED) {
        throw new IllegalArgumentException(
            "the discharges of this unit do not fall into two groups of "
                + FEWEST_HALVED
                + " or more");
      }
      parts.add(unit.only(own));
    }
    return parts;
  }

  /** The unit without some discharges, and those. */
  List<UnitTrack> part(UnitTrack unit, int[] second) {
    int[] own = IntStream.of(second).distinct().sorted().toArray();
    int[] rest =
        IntStream.range(0, unit.discharges).filter(d -> Arrays.binarySearch(own, d) < 0).toArray();
    if (own.length > 0 && (own[0] < 0 || own[own.length - 1] >= unit.discharges)) {
      throw new IllegalArgumentException(
          "the unit has discharges 1 to " + unit.discharges + ", and not all that were named");
    }
    if (own.length < FEWEST_HALVED || rest.length < FEWEST_HALVED) {
      throw new IllegalArgumentException(
          "each of the two units needs "
              + FEWEST_HALVED
              + " discharges or more, found "
              + rest.length
              + " and "
              + own.length);
    }
    return List.of(unit.only(rest), unit.only(own));
  }

  /** Whether most intervals are near the usual one. */
  private static boolean isSteady(UnitTrack unit) {
    double[] intervals = Rhythm.intervals(unit);
    return intervals.length == 0
        || Rhythm.steadyShare(intervals, RobustStatistics.median(intervals.clone())) >= STEADY;
  }

  /** Whether discharges keep apart from each other, but not from the others of the track. */
  private static boolean isUnit(UnitTrack unit, int[] own) {
    double[] intervals = Rhythm.intervals(unit, own);
    if (own.length < FEWEST || intervals.length < FEWEST / 2) {
      return false;
    }
    double soonest = soonest(intervals);
    int soon = soonCount(intervals);
    int mixed =
        IntStream.of(own)
            .map(d -> near(unit, own, d, d - 1, soonest) + near(unit, own, d, d + 1, soonest))
            .sum();
    return soon <= MOST_SOON * intervals.length
        && mixed >= LEAST_MIXED * own.length
        && chance(soon, mixed, (double) own.length / unit.discharges) < LARGEST_CHANCE;
  }

  /**
   * How likely it is that so few of the discharges that follow each other soon are both of the
   * group, if the group were drawn from one unit: one that was found in part skips many a
   * discharge, and its usual interval says little.
   */
  private static double chance(int soon, int mixed, double share) {
    return new BinomialDistribution(soon + mixed, share / (2 - share)).cumulativeProbability(soon);
  }

  private static double soonest(double[] intervals) {
    return SOON * RobustStatistics.quantile(intervals.clone(), USUAL_PROBABILITY);
  }

  private static int soonCount(double[] intervals) {
    double soonest = soonest(intervals);
    return (int) Arrays.stream(intervals).filter(interval -> interval < soonest).count();
  }

  /** 1 if another discharge that is not of the group lies near, else 0. */
  private static int near(UnitTrack unit, int[] own, int d, int other, double near) {
    return other >= 0
            && other < unit.discharges
            && Arrays.binarySearch(own, other) < 0
            && Math.abs(unit.reference[other] - unit.reference[d]) < near
        ? 1
        : 0;
  }

  /** Deviations of sizes and intervals, in steps that matter; 0 where a potential is not there. */
  private double[][] features(UnitTrack unit) {
    int leader = unit.leader();
    double[][] features = new double[unit.discharges][2 * unit.potentials];
    for (int d = 0; d < unit.discharges; d++) {
      for (int p = 0; p < unit.potentials; p++) {
        if (!unit.isPresent(d, p)) {
          continue;
        }
        features[d][2 * p] = limited((unit.scale[d][p] - 1) / SIZE);
        if (p != leader && unit.isPresent(d, leader)) {
          double interval = unit.arrival[d][p] - unit.arrival[d][leader];
          double away = interval - unit.lag[p] + unit.lag[leader];
          features[d][2 * p + 1] = limited(away / (INTERVAL_US * samplesPerUs));
        }
      }
    }
    return features;
  }

  private static double limited(double value) {
    return Math.max(-FARTHEST, Math.min(FARTHEST, value));
  }
}
