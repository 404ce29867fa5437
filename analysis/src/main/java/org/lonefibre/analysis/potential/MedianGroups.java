package org.lonefibre.analysis.potential;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.stream.IntStream;
import org.lonefibre.signal.robust.RobustStatistics;

/**
 * Groups of points about centres that are medians: a few odd points do not move them. All
 * directions count alike.
 *
 * <ul>
 *   <li>Thread rule: no state.
 * </ul>
 */
final class MedianGroups {

  private static final int ROUNDS = 40;
  private static final double FAR_SHARE = 0.9;

  private MedianGroups() {}

  /**
   * The group of each discharge: the nearest of some centres, which are medians of their groups.
   */
  static int[] of(double[][] features, int count) {
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
