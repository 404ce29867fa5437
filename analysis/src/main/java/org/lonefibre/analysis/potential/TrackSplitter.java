package org.lonefibre.analysis.potential;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.stream.IntStream;
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
  private static final int ROUNDS = 40;
  private static final double STEADY = 0.85;
  private static final double SOON = 0.5;
  private static final double USUAL_PROBABILITY = 0.3;
  private static final double MOST_SOON = 0.12;
  private static final double LEAST_MIXED = 0.3;
  private static final double INTERVAL_US = 20;
  private static final double SIZE = 0.03;
  private static final double FARTHEST = 10;
  private static final double FAR_SHARE = 0.9;

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
    int[] best = new int[0];
    for (int groups = 2; groups <= MOST_GROUPS; groups++) {
      int[] group = groups(features, groups);
      for (int g = 0; g < groups; g++) {
        int wanted = g;
        int[] own = IntStream.of(all).filter(d -> group[d] == wanted).toArray();
        if (own.length > best.length && own.length < all.length && isUnit(unit, own)) {
          best = own;
        }
      }
    }
    if (best.length == 0) {
      return List.of(unit);
    }
    int[] own = best;
    int[] rest = IntStream.of(all).filter(d -> Arrays.binarySearch(own, d) < 0).toArray();
    List<UnitTrack> parts = new ArrayList<>();
    parts.add(unit.only(own));
    parts.addAll(split(unit.only(rest)));
    return parts;
  }

  /** The two groups of discharges that sizes and intervals fall into, whatever their rhythm. */
  List<UnitTrack> halve(UnitTrack unit) {
    int[] group = groups(features(unit), 2);
    List<UnitTrack> parts = new ArrayList<>();
    for (int g = 0; g < 2; g++) {
      int wanted = g;
      int[] own = IntStream.range(0, unit.discharges).filter(d -> group[d] == wanted).toArray();
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
    double soonest = SOON * RobustStatistics.quantile(intervals.clone(), USUAL_PROBABILITY);
    long soon = Arrays.stream(intervals).filter(interval -> interval < soonest).count();
    long mixed =
        IntStream.of(own)
            .filter(
                d -> isNear(unit, own, d, d - 1, soonest) || isNear(unit, own, d, d + 1, soonest))
            .count();
    return soon <= MOST_SOON * intervals.length && mixed >= LEAST_MIXED * own.length;
  }

  private static boolean isNear(UnitTrack unit, int[] own, int d, int other, double near) {
    return other >= 0
        && other < unit.discharges
        && Arrays.binarySearch(own, other) < 0
        && Math.abs(unit.reference[other] - unit.reference[d]) < near;
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

  /**
   * The group of each discharge: the nearest of some centres, which are medians of their groups.
   */
  private static int[] groups(double[][] features, int count) {
    List<double[]> centres = new ArrayList<>();
    centres.add(nearest(features, new double[features[0].length]));
    while (centres.size() < count) {
      double[][] byDistance = features.clone();
      Arrays.sort(
          byDistance,
          Comparator.comparingDouble(row -> distance(row, centres.get(closest(row, centres)))));
      centres.add(byDistance[(int) (FAR_SHARE * byDistance.length)].clone());
    }
    int[] group = new int[features.length];
    for (int round = 0; round < ROUNDS; round++) {
      for (int d = 0; d < group.length; d++) {
        group[d] = closest(features[d], centres);
      }
      for (int g = 0; g < count; g++) {
        int wanted = g;
        double[][] own =
            IntStream.range(0, group.length)
                .filter(d -> group[d] == wanted)
                .mapToObj(d -> features[d])
                .toArray(double[][]::new);
        for (int f = 0; f < features[0].length && own.length > 0; f++) {
          int column = f;
          centres.get(g)[f] =
              RobustStatistics.median(Arrays.stream(own).mapToDouble(row -> row[column]).toArray());
        }
      }
    }
    return group;
  }

  private static double[] nearest(double[][] features, double[] centre) {
    return Arrays.stream(features)
        .min(Comparator.comparingDouble(row -> distance(row, centre)))
        .orElse(centre)
        .clone();
  }

  private static int closest(double[] row, List<double[]> centres) {
    int best = 0;
    for (int g = 1; g < centres.size(); g++) {
      best = distance(row, centres.get(g)) < distance(row, centres.get(best)) ? g : best;
    }
    return best;
  }

  private static double distance(double[] a, double[] b) {
    double sum = 0;
    for (int f = 0; f < a.length; f++) {
      sum += (a[f] - b[f]) * (a[f] - b[f]);
    }
    return sum;
  }
}
