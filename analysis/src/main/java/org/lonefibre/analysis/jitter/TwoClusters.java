package org.lonefibre.analysis.jitter;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.hipparchus.distribution.discrete.BinomialDistribution;

/**
 * Whether intervals jump between two clusters (flip-flop).
 *
 * <ol>
 *   <li>The intervals are split in two where the spread within the parts is least; each part holds
 *       a tenth and at least five of them.
 *   <li>Three windows, each a third of the distance between the parts' medians wide: around each
 *       median, and half-way. In anything with one mode the middle holds, in the mean, at least as
 *       many as the emptier side; the middle must be emptier than that by less than the chance
 *       allowed, by the binomial law.
 *   <li>The passage from part to part must be a jump: at least two passages between neighbouring
 *       sweeps, their median over half of the distance. A slow drift passes through the middle.
 * </ol>
 */
record TwoClusters(
    double shortMedianUs,
    double longMedianUs,
    int shortSweeps,
    int longSweeps,
    int passages,
    double withinDifferenceUs,
    List<Integer> sweepsOfSmaller) {

  private static final int LEAST_MEMBERS = 5;
  private static final double LEAST_SHARE = 0.1;
  private static final int LEAST_PASSAGES = 2;
  private static final double JUMP_SHARE = 0.5;

  static Optional<TwoClusters> find(PresentIntervals intervals, JitterSettings settings) {
    int n = intervals.size();
    if (n < settings.clusterSweeps() || intervals.sortedUs(0) == intervals.sortedUs(n - 1)) {
      return Optional.empty();
    }
    int split = bestSplit(intervals);
    double low = intervals.medianUs(0, split);
    double high = intervals.medianUs(split, n);
    double width = (high - low) / 3;
    int sides = Math.min(intervals.countAround(low, width), intervals.countAround(high, width));
    int middle = intervals.countAround((low + high) / 2, width);
    double chance = new BinomialDistribution(middle + sides, 0.5).cumulativeProbability(middle);
    if (chance >= settings.clusterProbability()) {
      return Optional.empty();
    }
    return describe(intervals, split, low, high);
  }

  /** Number of short intervals for which the spread within both parts together is least. */
  private static int bestSplit(PresentIntervals intervals) {
    int n = intervals.size();
    int least = Math.max(LEAST_MEMBERS, (int) Math.ceil(LEAST_SHARE * n));
    double mean = intervals.meanUs();
    double sum = 0;
    double best = -1;
    int split = n / 2;
    for (int k = 1; k <= n - least; k++) {
      sum += intervals.sortedUs(k - 1) - mean;
      double between = sum * sum / ((double) k * (n - k));
      if (k >= least && between > best) {
        best = between;
        split = k;
      }
    }
    return split;
  }

  private static Optional<TwoClusters> describe(
      PresentIntervals intervals, int split, double low, double high) {
    double border = (intervals.sortedUs(split - 1) + intervals.sortedUs(split)) / 2;
    List<Double> jumps = new ArrayList<>();
    double within = 0;
    int withinCount = 0;
    for (int i = 1; i < intervals.size(); i++) {
      if (!DifferenceChain.areNeighbours(intervals.sweep(i - 1), intervals.sweep(i))) {
        continue;
      }
      double difference = Math.abs(intervals.valueUs(i) - intervals.valueUs(i - 1));
      if (intervals.valueUs(i) > border == intervals.valueUs(i - 1) > border) {
        within += difference;
        withinCount++;
      } else {
        jumps.add(difference);
      }
    }
    jumps.sort(null);
    if (jumps.size() < LEAST_PASSAGES || jumps.get(jumps.size() / 2) < JUMP_SHARE * (high - low)) {
      return Optional.empty();
    }
    boolean shortIsSmaller = 2 * split <= intervals.size();
    List<Integer> smaller = new ArrayList<>();
    for (int i = 0; i < intervals.size(); i++) {
      if (intervals.valueUs(i) > border != shortIsSmaller) {
        smaller.add(intervals.sweep(i).sweep());
      }
    }
    return Optional.of(
        new TwoClusters(
            low,
            high,
            split,
            intervals.size() - split,
            jumps.size(),
            withinCount == 0 ? 0 : within / withinCount,
            List.copyOf(smaller)));
  }
}
