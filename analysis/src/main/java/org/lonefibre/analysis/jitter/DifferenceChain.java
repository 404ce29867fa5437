package org.lonefibre.analysis.jitter;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.lonefibre.analysis.interval.IntervalSeries;
import org.lonefibre.analysis.interval.SweepInterval;

/**
 * Absolute differences between intervals that follow each other in some order, and which of them
 * share an interval.
 *
 * <ul>
 *   <li>Consecutive: neighbours in time, both present, the second directly after the first. A
 *       blocked, trigger-absent, obscured or excluded sweep, or a gap, ends a run.
 *   <li>Sorted: present sweeps in rising order of the inter-discharge interval before them, ties by
 *       time; sweeps that do not know that interval are left out.
 * </ul>
 */
final class DifferenceChain {

  /** Ratio of the mean absolute difference of two Gaussian values to their SD: 2/sqrt(pi). */
  static final double GAUSSIAN_FACTOR = 2 / Math.sqrt(Math.PI);

  private final double[] absoluteUs;
  private final boolean[] linkedToLast;
  private final double meanSquaredErrorUs;

  private DifferenceChain(List<SweepInterval> firsts, List<SweepInterval> seconds) {
    int n = firsts.size();
    absoluteUs = new double[n];
    linkedToLast = new boolean[n];
    double squares = 0;
    for (int i = 0; i < n; i++) {
      absoluteUs[i] = Math.abs(intervalUs(seconds.get(i)) - intervalUs(firsts.get(i)));
      linkedToLast[i] = i > 0 && seconds.get(i - 1) == firsts.get(i);
      squares += (squaredErrorUs(firsts.get(i)) + squaredErrorUs(seconds.get(i))) / 2;
    }
    meanSquaredErrorUs = n == 0 ? 0 : squares / n;
  }

  static DifferenceChain consecutive(IntervalSeries series) {
    List<SweepInterval> firsts = new ArrayList<>();
    List<SweepInterval> seconds = new ArrayList<>();
    List<SweepInterval> sweeps = series.sweeps();
    for (int i = 1; i < sweeps.size(); i++) {
      SweepInterval first = sweeps.get(i - 1);
      SweepInterval second = sweeps.get(i);
      if (first.intervalUs() != null
          && second.intervalUs() != null
          && areNeighbours(first, second)) {
        firsts.add(first);
        seconds.add(second);
      }
    }
    return new DifferenceChain(firsts, seconds);
  }

  static DifferenceChain sorted(IntervalSeries series) {
    List<SweepInterval> ordered =
        series.sweeps().stream()
            .filter(s -> s.intervalUs() != null && s.precedingIntervalMs() != null)
            .sorted(Comparator.comparingDouble(DifferenceChain::precedingIntervalMs))
            .toList();
    return ordered.isEmpty()
        ? new DifferenceChain(List.of(), List.of())
        : new DifferenceChain(
            ordered.subList(0, ordered.size() - 1), ordered.subList(1, ordered.size()));
  }

  static boolean areNeighbours(SweepInterval first, SweepInterval second) {
    return second.continuous() && second.sweep() == first.sweep() + 1;
  }

  int size() {
    return absoluteUs.length;
  }

  double absoluteUs(int i) {
    return absoluteUs[i];
  }

  /** Whether this difference shares an interval with the one before it. */
  boolean isLinkedToLast(int i) {
    return linkedToLast[i];
  }

  double meanUs() {
    double sum = 0;
    for (double difference : absoluteUs) {
      sum += difference;
    }
    return sum / absoluteUs.length;
  }

  /** Mean of the squared standard errors of the intervals that enter, each as often as it does. */
  double meanSquaredErrorUs() {
    return meanSquaredErrorUs;
  }

  private static double intervalUs(SweepInterval sweep) {
    Double value = sweep.intervalUs();
    return value == null ? 0 : value;
  }

  private static double squaredErrorUs(SweepInterval sweep) {
    Double error = sweep.errorUs();
    return error == null ? 0 : error * error;
  }

  private static double precedingIntervalMs(SweepInterval sweep) {
    Double value = sweep.precedingIntervalMs();
    return value == null ? 0 : value;
  }
}
