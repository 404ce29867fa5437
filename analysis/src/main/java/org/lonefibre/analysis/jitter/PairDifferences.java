package org.lonefibre.analysis.jitter;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.hipparchus.distribution.continuous.TDistribution;
import org.lonefibre.analysis.interval.SweepInterval;

/**
 * Consecutive differences of the interval between any two potentials of one unit, sweep by sweep.
 * Potential 0 is the trigger.
 *
 * <p>For independent end-plates the squared jitter of a pair is the sum of two squared jitters,
 * exactly if they are Gaussian. The error of a weighted sum of squared jitters follows from what
 * each sweep contributes to it, with the dependence between neighbours.
 */
final class PairDifferences {

  /** Differences to a degree of freedom, by simulation; more potentials: more pairs to weigh. */
  private static final double DIVISOR_OF_THREE = 3.3;

  private static final double DIVISOR_OF_MORE = 4.3;

  private final int potentials;
  private final int positions;
  private final boolean[] linkedToLast;
  private final double[][] absoluteUs;
  private final double[] meansUs;
  private final int[] counts;

  PairDifferences(List<FollowedPotential> followers) {
    potentials = followers.size() + 1;
    List<Map<Integer, SweepInterval>> bySweep =
        followers.stream().map(PairDifferences::bySweep).toList();
    TreeMap<Integer, Boolean> seconds = new TreeMap<>();
    bySweep.forEach(
        sweeps ->
            sweeps.values().stream()
                .filter(s -> s.continuous() && s.sweep() > 1)
                .forEach(s -> seconds.put(s.sweep(), true)));
    positions = seconds.size();
    linkedToLast = new boolean[positions];
    double[][] moves = new double[potentials][positions];
    int position = 0;
    int last = Integer.MIN_VALUE;
    for (int sweep : seconds.keySet()) {
      linkedToLast[position] = sweep == last + 1;
      for (int k = 1; k < potentials; k++) {
        moves[k][position] = moveUs(bySweep.get(k - 1), sweep);
      }
      last = sweep;
      position++;
    }
    int pairs = potentials * (potentials - 1) / 2;
    absoluteUs = new double[pairs][positions];
    meansUs = new double[pairs];
    counts = new int[pairs];
    for (int b = 1; b < potentials; b++) {
      for (int a = 0; a < b; a++) {
        fill(pair(a, b), moves[a], moves[b]);
      }
    }
  }

  private static Map<Integer, SweepInterval> bySweep(FollowedPotential follower) {
    Map<Integer, SweepInterval> sweeps = new HashMap<>();
    follower.intervals().sweeps().forEach(s -> sweeps.put(s.sweep(), s));
    return sweeps;
  }

  /** Change of the interval into one sweep; not a number where it cannot be formed. */
  private static double moveUs(Map<Integer, SweepInterval> sweeps, int sweep) {
    SweepInterval second = sweeps.get(sweep);
    SweepInterval first = sweeps.get(sweep - 1);
    if (first == null || second == null || !DifferenceChain.areNeighbours(first, second)) {
      return Double.NaN;
    }
    Double before = first.intervalUs();
    Double after = second.intervalUs();
    return before == null || after == null ? Double.NaN : after - before;
  }

  private void fill(int pair, double[] first, double[] second) {
    double sum = 0;
    for (int i = 0; i < positions; i++) {
      double difference = Math.abs(second[i] - first[i]);
      absoluteUs[pair][i] = difference;
      if (!Double.isNaN(difference)) {
        sum += difference;
        counts[pair]++;
      }
    }
    meansUs[pair] = counts[pair] == 0 ? 0 : sum / counts[pair];
  }

  private static int pair(int a, int b) {
    int high = Math.max(a, b);
    return high * (high - 1) / 2 + Math.min(a, b);
  }

  int potentials() {
    return potentials;
  }

  /** Number of differences of the interval between two potentials. */
  int count(int a, int b) {
    return counts[pair(a, b)];
  }

  /**
   * The own squared jitter of one potential among some, by least squares over all their pairs: with
   * {@code S} the sum of squared jitters of its pairs, {@code T} that of all pairs and {@code n}
   * potentials, {@code (S - T / (n-1)) / (n-2)}.
   *
   * @param among three potentials or more
   */
  SquaredJitter own(int potential, List<Integer> among) {
    int n = among.size();
    double[] weights = new double[meansUs.length];
    int least = Integer.MAX_VALUE;
    for (int b : among) {
      for (int a : among) {
        if (a < b) {
          boolean its = a == potential || b == potential;
          weights[pair(a, b)] = ((its ? 1.0 : 0.0) - 1.0 / (n - 1)) / (n - 2);
          least = Math.min(least, count(a, b));
        }
      }
    }
    return weighted(weights, least, n);
  }

  private SquaredJitter weighted(double[] weights, int differences, int among) {
    double value = 0;
    double own = 0;
    double shared = 0;
    double last = 0;
    for (int p = 0; p < weights.length; p++) {
      value += weights[p] * meansUs[p] * meansUs[p];
    }
    for (int i = 0; i < positions; i++) {
      double part = 0;
      for (int p = 0; p < weights.length; p++) {
        if (weights[p] != 0 && !Double.isNaN(absoluteUs[p][i])) {
          part += weights[p] * 2 * meansUs[p] * (absoluteUs[p][i] - meansUs[p]) / counts[p];
        }
      }
      own += part * part;
      shared += linkedToLast[i] ? part * last : 0;
      last = part;
    }
    double variance =
        Math.max(own + 2 * shared, own / 3) * differences / Math.max(1, differences - 1);
    double quantile =
        new TDistribution(
                Math.max(1, differences / (among == 3 ? DIVISOR_OF_THREE : DIVISOR_OF_MORE)))
            .inverseCumulativeProbability(0.975);
    return new SquaredJitter(value, quantile * Math.sqrt(variance), differences);
  }

  /**
   * A squared jitter, in us squared, that may come out negative, the reach of its 95 %, and the
   * number of differences it rests on.
   */
  record SquaredJitter(double value, double reach, int differences) {}
}
