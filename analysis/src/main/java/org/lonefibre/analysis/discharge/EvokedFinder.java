package org.lonefibre.analysis.discharge;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.lonefibre.analysis.conditioning.ConditionedSignal;
import org.lonefibre.signal.recording.Segment;
import org.lonefibre.signal.robust.RobustStatistics;

/**
 * Finds the potentials that stimuli evoke: the latencies at which spikes crowd.
 *
 * <ul>
 *   <li>Spikes before {@link #shortestMs} belong to the artefact and are left aside.
 *   <li>So are spikes under 6 % of another that came up to 2.6 ms earlier: the slow end of a large
 *       response is itself steeper than noise (engineering choice).
 *   <li>A latency that drifts is followed from stimulus to stimulus ({@link LatencyFollower}).
 *   <li>Thread rule: safe, keeps nothing between calls.
 * </ul>
 */
public final class EvokedFinder {

  private static final double WINDOW_US = 500;
  private static final double SMALLEST_SHARE = 0.15;
  private static final double TAIL_US = 2600;
  private static final double TAIL_SHARE = 0.06;

  private final DischargeSettings settings;
  private final double shortestMs;
  private final double longestMs;

  /**
   * @param shortestMs shortest latency looked at
   * @param longestMs longest latency looked at
   */
  public EvokedFinder(DischargeSettings settings, double shortestMs, double longestMs) {
    this.settings = settings;
    this.shortestMs = shortestMs;
    this.longestMs = longestMs;
  }

  /** One draft whose discharges are the stimuli and whose potentials are what they evoke. */
  public Discharges find(ConditionedSignal conditioned, double[] stimulusSamples) {
    ConditionedSignal signal = conditioned.forTiming();
    SpikeTrain spikes = new SpikeDetector(settings).detect(signal);
    Snippets snippets = Snippets.read(signal, spikes);
    List<double[]> lags = lags(signal, spikes, stimulusSamples);
    double window = signal.timeBase().lengthSamples(WINDOW_US);
    List<Role> roles = new ArrayList<>();
    List<double[]> positions = new ArrayList<>();
    boolean[] used = new boolean[lags.size()];
    LatencyFollower follower =
        new LatencyFollower(lags, used, spikes.height, window / 2, stimulusSamples.length);
    while (roles.size() < 8) {
      List<Integer> crowd = crowd(lags, used, window, stimulusSamples.length);
      if (crowd.size() < Math.max(6, SMALLEST_SHARE * stimulusSamples.length)) {
        break;
      }
      crowd = follower.follow(crowd);
      double[] position = new double[stimulusSamples.length];
      Arrays.fill(position, Double.NaN);
      int[] members = new int[crowd.size()];
      for (int i = 0; i < members.length; i++) {
        double[] entry = lags.get(crowd.get(i));
        members[i] = (int) entry[2];
        position[(int) entry[1]] = spikes.position[members[i]];
        spikes.unit[members[i]] = 0;
      }
      double[] places = crowd.stream().mapToDouble(i -> lags.get(i)[0]).toArray();
      roles.add(
          PatternMatcher.role(
              snippets,
              members,
              RobustStatistics.median(places),
              RobustStatistics.standardDeviation(places),
              (double) members.length / stimulusSamples.length));
      positions.add(position);
    }
    int[] unexplained =
        lags.stream()
            .mapToInt(entry -> (int) entry[2])
            .filter(i -> spikes.unit[i] == SpikeTrain.NONE)
            .sorted()
            .toArray();
    return new Discharges(
        roles.isEmpty() ? List.of() : List.of(draft(signal, roles, positions, stimulusSamples)),
        Arrays.stream(unexplained).mapToDouble(i -> spikes.position[i]).toArray(),
        Arrays.stream(unexplained).mapToDouble(i -> spikes.height[i]).toArray(),
        Discharges.Origin.STIMULI);
  }

  /** Latency, stimulus and spike of every spike that follows a stimulus, by latency; no tails. */
  private List<double[]> lags(
      ConditionedSignal signal, SpikeTrain spikes, double[] stimulusSamples) {
    double shortest = signal.timeBase().lengthSamples(shortestMs * 1000);
    double longest = signal.timeBase().lengthSamples(longestMs * 1000);
    List<double[]> lags = new ArrayList<>();
    for (int s = 0; s < stimulusSamples.length; s++) {
      double end = stimulusSamples[s] + longest;
      if (s + 1 < stimulusSamples.length) {
        end = Math.min(end, stimulusSamples[s + 1]);
      }
      int first = spikes.firstAtOrAfter(stimulusSamples[s] + shortest);
      for (int i = first; i < spikes.count && spikes.position[i] < end; i++) {
        if (!isTail(signal, spikes, first, i)) {
          lags.add(new double[] {spikes.position[i] - stimulusSamples[s], s, i});
        }
      }
    }
    lags.sort((a, b) -> Double.compare(a[0], b[0]));
    return lags;
  }

  /**
   * Whether a spike is so small after a far larger one, spike {@code first} or later, that it may
   * be a part of its slow end.
   */
  private static boolean isTail(ConditionedSignal signal, SpikeTrain spikes, int first, int i) {
    double reach = signal.timeBase().lengthSamples(TAIL_US);
    double least = Math.abs(spikes.height[i]) / TAIL_SHARE;
    for (int k = i - 1; k >= first && spikes.position[i] - spikes.position[k] < reach; k--) {
      if (spikes.segment[k] == spikes.segment[i] && Math.abs(spikes.height[k]) > least) {
        return true;
      }
    }
    return false;
  }

  /** Entries of the largest crowd, at most one for each stimulus; they are marked as used. */
  private static List<Integer> crowd(
      List<double[]> lags, boolean[] used, double window, int stimuli) {
    int low = 0;
    int inside = 0;
    int most = 0;
    double centre = 0;
    for (int high = 0; high < lags.size(); high++) {
      inside += used[high] ? 0 : 1;
      while (lags.get(high)[0] - lags.get(low)[0] > window) {
        inside -= used[low] ? 0 : 1;
        low++;
      }
      if (inside > most) {
        most = inside;
        centre = (lags.get(high)[0] + lags.get(low)[0]) / 2;
      }
    }
    int[] nearest = new int[stimuli];
    Arrays.fill(nearest, -1);
    for (int i = 0; i < used.length; i++) {
      double distance = Math.abs(lags.get(i)[0] - centre);
      if (!used[i] && distance < window) {
        int s = (int) lags.get(i)[1];
        if (nearest[s] < 0 || distance < Math.abs(lags.get(nearest[s])[0] - centre)) {
          nearest[s] = i;
        }
      }
    }
    List<Integer> chosen = new ArrayList<>();
    for (int i : nearest) {
      if (i >= 0) {
        used[i] = true;
        chosen.add(i);
      }
    }
    return chosen;
  }

  private static UnitDraft draft(
      ConditionedSignal signal,
      List<Role> roles,
      List<double[]> positions,
      double[] stimulusSamples) {
    int[] segment = new int[stimulusSamples.length];
    double[][] position = new double[stimulusSamples.length][roles.size()];
    for (int s = 0; s < segment.length; s++) {
      for (int k = 0; k < signal.segments().size(); k++) {
        Segment within = signal.segments().get(k);
        if (stimulusSamples[s] >= within.firstSample() && stimulusSamples[s] < within.endSample()) {
          segment[s] = k;
        }
      }
      for (int r = 0; r < roles.size(); r++) {
        position[s][r] = positions.get(r)[s];
      }
    }
    return new UnitDraft(roles, stimulusSamples.clone(), segment, position);
  }
}
