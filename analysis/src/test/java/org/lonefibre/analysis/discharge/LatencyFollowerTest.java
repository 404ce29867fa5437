package org.lonefibre.analysis.discharge;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

class LatencyFollowerTest {

  private static final int STIMULI = 30;
  private static final double TOLERANCE = 12;

  private final List<double[]> lags = new ArrayList<>();
  private final double[] height = new double[2 * STIMULI];

  @Test
  void aDriftingResponseIsFollowedToItsBeginningPastSmallSpikesInTheCrowd() {
    List<Integer> crowd = crowd(-300);
    boolean[] used = new boolean[lags.size()];
    crowd.forEach(i -> used[i] = true);
    List<Integer> followed =
        new LatencyFollower(lags, used, height, TOLERANCE, STIMULI).follow(crowd);
    assertThat(followed).hasSize(STIMULI).allMatch(i -> height[i] == 1000);
    assertThat(used[lags.size() - 1]).as("the small spike is free again").isFalse();
  }

  @Test
  void aBlockedResponseIsNotReplacedByASpikeOfTheOtherDirection() {
    List<Integer> crowd = new ArrayList<>(crowd(-1000));
    crowd.removeIf(i -> lags.get(i)[1] == 0);
    boolean[] used = new boolean[lags.size()];
    crowd.forEach(i -> used[i] = true);
    height[0] = -1000;
    List<Integer> followed =
        new LatencyFollower(lags, used, height, TOLERANCE, STIMULI).follow(crowd);
    assertThat(followed).hasSize(STIMULI - 1).noneMatch(i -> lags.get(i)[1] == 0);
  }

  /** Responses that settle from 60 samples early; the crowd has other spikes at the first five. */
  private List<Integer> crowd(double otherHeight) {
    List<Integer> crowd = new ArrayList<>();
    for (int s = 0; s < STIMULI; s++) {
      lags.add(new double[] {200 - 60 * Math.exp(-s / 4.0), s, s});
      height[s] = 1000;
      if (s >= 5) {
        crowd.add(s);
      }
    }
    for (int s = 0; s < 5; s++) {
      crowd.add(lags.size());
      lags.add(new double[] {198, s, STIMULI + s});
      height[STIMULI + s] = otherHeight;
    }
    return crowd;
  }
}
