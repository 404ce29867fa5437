package org.lonefibre.analysis.potential;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Arrays;
import java.util.Random;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;

/** Groups that mix in every coordinate come apart where both coordinates err together. */
@Tag("unit")
class MixtureGroupsTest {

  private static final int SIZE = 60;

  @Test
  void groupsThatScatterAlongOneDirectionComeApartAcrossIt() {
    double[][] points = points(new double[] {0, 0.9, 1.8});
    int[] group = MixtureGroups.of(points, 3);
    for (int g = 0; g < 3; g++) {
      int[] own = Arrays.copyOfRange(group, g * SIZE, (g + 1) * SIZE);
      assertThat(Arrays.stream(own).filter(value -> value == own[0]).count())
          .isGreaterThanOrEqualTo(SIZE - 2);
    }
    assertThat(group[0]).isNotEqualTo(group[SIZE]).isNotEqualTo(group[2 * SIZE]);
    assertThat(wrong(MedianGroups.of(points, 3))).isGreaterThan(SIZE / 2);
  }

  @Test
  void theSamePointsGiveTheSameGroups() {
    double[][] points = points(new double[] {0, 1.2, 2.4});
    assertThat(MixtureGroups.of(points, 4)).isEqualTo(MixtureGroups.of(points, 4));
  }

  /** Points that are not in the group that most of their kind are in. */
  private static long wrong(int[] group) {
    long wrong = 0;
    for (int g = 0; g < 3; g++) {
      int[] own = Arrays.copyOfRange(group, g * SIZE, (g + 1) * SIZE);
      long most = 0;
      for (int of = 0; of < 3; of++) {
        int wanted = of;
        most = Math.max(most, Arrays.stream(own).filter(value -> value == wanted).count());
      }
      wrong += SIZE - most;
    }
    return wrong;
  }

  /** Three clouds, long in one diagonal, one beside the other across it. */
  private static double[][] points(double[] across) {
    Random random = new Random(11);
    double[][] points = new double[across.length * SIZE][2];
    for (int i = 0; i < points.length; i++) {
      double along = 2 * random.nextGaussian();
      double aside = across[i / SIZE] + 0.12 * random.nextGaussian();
      points[i] = new double[] {along + aside, along - aside};
    }
    return points;
  }
}
