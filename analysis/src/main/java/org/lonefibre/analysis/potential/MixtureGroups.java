package org.lonefibre.analysis.potential;

import java.util.Random;
import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.LUDecomposition;
import org.hipparchus.linear.RealMatrix;

/**
 * Groups of points that scatter alike about their centres: a mixture of normal laws of one
 * covariance, by expectation and maximisation from several beginnings (Dempster, Laird and Rubin
 * 1977; from memory). How points scatter need not be known: sizes and intervals of overlapping
 * potentials err together, and groups that mix in each of them lie apart across that direction.
 *
 * <ul>
 *   <li>The same points give the same groups.
 *   <li>Thread rule: keeps nothing between calls.
 * </ul>
 */
final class MixtureGroups {

  private static final int BEGINNINGS = 12;
  private static final int ROUNDS = 60;
  private static final double SETTLED = 1e-4;

  /** Least scatter in every direction, so that no direction is singular. */
  private static final double LEAST_VARIANCE = 0.01;

  private final double[][] points;
  private final int count;
  private final double[][] centre;
  private final double[] weight;
  private final double[][] share;
  private RealMatrix scatter;

  private MixtureGroups(double[][] points, int count, Random random) {
    this.points = points;
    this.count = count;
    this.centre = new double[count][];
    this.weight = new double[count];
    this.share = new double[points.length][count];
    for (int g = 0; g < count; g++) {
      centre[g] = points[random.nextInt(points.length)].clone();
      weight[g] = 1.0 / count;
    }
    this.scatter = scatterOfAll();
  }

  /** The group of each point, from 0; some may be empty. */
  static int[] of(double[][] points, int count) {
    Random random = new Random(count);
    int[] best = new int[points.length];
    double most = Double.NEGATIVE_INFINITY;
    for (int k = 0; k < BEGINNINGS; k++) {
      MixtureGroups groups = new MixtureGroups(points, count, random);
      double likelihood = groups.settle();
      if (likelihood > most) {
        most = likelihood;
        best = groups.likeliest();
      }
    }
    return best;
  }

  private double settle() {
    double likelihood = Double.NEGATIVE_INFINITY;
    for (int round = 0; round < ROUNDS; round++) {
      double now = shares();
      if (now - likelihood < SETTLED) {
        return now;
      }
      likelihood = now;
      improve();
    }
    return likelihood;
  }

  /** Shares of each point in the groups; the logarithm of the likelihood. */
  private double shares() {
    LUDecomposition decomposition = new LUDecomposition(scatter);
    double[][] inverse = decomposition.getSolver().getInverse().getData();
    double likelihood = -0.5 * points.length * Math.log(decomposition.getDeterminant());
    for (int i = 0; i < points.length; i++) {
      double most = Double.NEGATIVE_INFINITY;
      for (int g = 0; g < count; g++) {
        share[i][g] = Math.log(weight[g]) - 0.5 * distance(points[i], centre[g], inverse);
        most = Math.max(most, share[i][g]);
      }
      double sum = 0;
      for (int g = 0; g < count; g++) {
        share[i][g] = Math.exp(share[i][g] - most);
        sum += share[i][g];
      }
      for (int g = 0; g < count; g++) {
        share[i][g] /= sum;
      }
      likelihood += most + Math.log(sum);
    }
    return likelihood;
  }

  private void improve() {
    int n = points[0].length;
    double[][] sum = new double[n][n];
    for (int g = 0; g < count; g++) {
      double whole = 1e-9;
      double[] mean = new double[n];
      for (int i = 0; i < points.length; i++) {
        whole += share[i][g];
        for (int f = 0; f < n; f++) {
          mean[f] += share[i][g] * points[i][f];
        }
      }
      for (int f = 0; f < n; f++) {
        centre[g][f] = mean[f] / whole;
      }
      weight[g] = whole / points.length;
      for (int i = 0; i < points.length; i++) {
        addSquares(sum, points[i], centre[g], share[i][g]);
      }
    }
    scatter = regular(sum);
  }

  private RealMatrix scatterOfAll() {
    int n = points[0].length;
    double[] mean = new double[n];
    for (double[] point : points) {
      for (int f = 0; f < n; f++) {
        mean[f] += point[f] / points.length;
      }
    }
    double[][] sum = new double[n][n];
    for (double[] point : points) {
      addSquares(sum, point, mean, 1);
    }
    return regular(sum);
  }

  private RealMatrix regular(double[][] sum) {
    for (int f = 0; f < sum.length; f++) {
      for (int e = 0; e < sum.length; e++) {
        sum[f][e] = sum[f][e] / points.length + (e == f ? LEAST_VARIANCE : 0);
      }
    }
    return new Array2DRowRealMatrix(sum, false);
  }

  private static void addSquares(double[][] sum, double[] point, double[] centre, double share) {
    for (int f = 0; f < point.length; f++) {
      for (int e = 0; e < point.length; e++) {
        sum[f][e] += share * (point[f] - centre[f]) * (point[e] - centre[e]);
      }
    }
  }

  private static double distance(double[] point, double[] centre, double[][] inverse) {
    double sum = 0;
    for (int f = 0; f < point.length; f++) {
      for (int e = 0; e < point.length; e++) {
        sum += inverse[f][e] * (point[f] - centre[f]) * (point[e] - centre[e]);
      }
    }
    return sum;
  }

  private int[] likeliest() {
    int[] group = new int[points.length];
    for (int i = 0; i < group.length; i++) {
      for (int g = 1; g < count; g++) {
        group[i] = share[i][g] > share[i][group[i]] ? g : group[i];
      }
    }
    return group;
  }
}
