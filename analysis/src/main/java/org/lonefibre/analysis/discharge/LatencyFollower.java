package org.lonefibre.analysis.discharge;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.lonefibre.signal.robust.RobustStatistics;

/**
 * Follows one response through a train of stimuli whose latency drifts, from the stimuli at which
 * it was seen to the others: where its neighbours let it be expected, a spike of its direction and
 * about its size is taken for it.
 */
final class LatencyFollower {

  private static final int LOOK_BACK = 8;
  private static final double SMALLEST_RATIO = 0.55;
  private static final double LARGEST_RATIO = 1.8;

  private final List<double[]> lags;
  private final boolean[] used;
  private final double[] height;
  private final double tolerance;
  private final List<List<Integer>> ofStimulus;

  /**
   * @param lags latency, stimulus and spike of every spike that follows a stimulus
   * @param used entries of {@code lags} that belong to a response already; brought up to date
   * @param height signed height of every spike
   * @param toleranceSamples farthest from the expected latency
   */
  LatencyFollower(
      List<double[]> lags, boolean[] used, double[] height, double toleranceSamples, int stimuli) {
    this.lags = lags;
    this.used = used;
    this.height = height;
    this.tolerance = toleranceSamples;
    this.ofStimulus = new ArrayList<>();
    for (int s = 0; s < stimuli; s++) {
      ofStimulus.add(new ArrayList<>());
    }
    for (int i = 0; i < lags.size(); i++) {
      ofStimulus.get((int) lags.get(i)[1]).add(i);
    }
  }

  /**
   * The entries of a response, one a stimulus at most, with those that its drift leads to. What a
   * crowd holds of another direction or size is kept only where nothing better is found.
   */
  List<Integer> follow(List<Integer> crowd) {
    double usual = RobustStatistics.median(crowd.stream().mapToDouble(this::height).toArray());
    int[] entry = new int[ofStimulus.size()];
    int[] doubtful = new int[ofStimulus.size()];
    Arrays.fill(entry, -1);
    Arrays.fill(doubtful, -1);
    for (int i : crowd) {
      (isLike(i, usual) ? entry : doubtful)[(int) lags.get(i)[1]] = i;
    }
    for (int s = entry.length - 1; s >= 0; s--) {
      extend(entry, s, 1, usual);
    }
    for (int s = 0; s < entry.length; s++) {
      extend(entry, s, -1, usual);
    }
    List<Integer> followed = new ArrayList<>();
    for (int s = 0; s < entry.length; s++) {
      if (entry[s] >= 0 && doubtful[s] >= 0) {
        used[doubtful[s]] = false;
      }
      int i = entry[s] >= 0 ? entry[s] : doubtful[s];
      if (i >= 0) {
        followed.add(i);
      }
    }
    return followed;
  }

  private boolean isLike(int i, double usual) {
    double ratio = height(i) / usual;
    return ratio > SMALLEST_RATIO && ratio < LARGEST_RATIO;
  }

  private void extend(int[] entry, int stimulus, int step, double usual) {
    if (entry[stimulus] >= 0) {
      return;
    }
    double expected = expected(entry, stimulus, step);
    int best = -1;
    for (int i : ofStimulus.get(stimulus)) {
      if (!used[i]
          && isLike(i, usual)
          && Math.abs(lags.get(i)[0] - expected) < tolerance
          && (best < 0
              || Math.abs(lags.get(i)[0] - expected) < Math.abs(lags.get(best)[0] - expected))) {
        best = i;
      }
    }
    if (best >= 0) {
      entry[stimulus] = best;
      used[best] = true;
    }
  }

  /** Latency that the nearest stimuli on one side let expect, in samples; not a number if none. */
  private double expected(int[] entry, int stimulus, int step) {
    int[] known = new int[3];
    int n = 0;
    for (int k = 1; k <= LOOK_BACK && n < known.length; k++) {
      int s = stimulus + k * step;
      if (s >= 0 && s < entry.length && entry[s] >= 0) {
        known[n++] = s;
      }
    }
    if (n == 0) {
      return Double.NaN;
    }
    double nearest = lags.get(entry[known[0]])[0];
    if (n == 1) {
      return nearest;
    }
    double next = lags.get(entry[known[1]])[0];
    return nearest + (nearest - next) / (known[0] - known[1]) * (stimulus - known[0]);
  }

  private double height(int i) {
    return height[(int) lags.get(i)[2]];
  }
}
