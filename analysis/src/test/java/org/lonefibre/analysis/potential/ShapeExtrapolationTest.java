package org.lonefibre.analysis.potential;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import org.junit.jupiter.api.Test;

class ShapeExtrapolationTest {

  private static final int LENGTH = 41;

  @Test
  void aSlowTurnIsFollowedToItsEnd() {
    double[][] end = {wave(20, 3), wave(24, 5)};
    double[][] now = {plus(end[0], 0.3, wave(9, 2)), plus(end[1], -0.2, wave(33, 2))};
    double[] left = new double[9];
    ShapeExtrapolation extrapolation = new ShapeExtrapolation();

    for (int turn = 0; turn < left.length; turn++) {
      left[turn] = farthest(now, end);
      now = extrapolation.beyond(now, turned(now, end));
    }

    // Alone a turn leaves 0.9 of what is missing at one place and 0.5 at another: 0.39 behind nine.
    assertThat(left[8]).isLessThan(1e-3 * left[0]);
  }

  @Test
  void theFirstTurnPointsNowhere() {
    double[][] from = {wave(20, 3)};
    double[][] to = {plus(wave(20, 3), 0.1, wave(9, 2))};

    assertThat(new ShapeExtrapolation().beyond(from, to)[0]).containsExactly(to[0]);
  }

  @Test
  void growthAndShiftAreNoChange() {
    double[][] shape = {wave(20, 3)};
    double[] slope = new double[LENGTH];
    for (int k = 1; k < LENGTH - 1; k++) {
      slope[k] = shape[0][k + 1] - shape[0][k - 1];
    }
    double[][] moved = {plus(plus(shape[0], 0.05, shape[0]), 0.02, slope)};
    double[][] other = {plus(moved[0], 0.1, wave(9, 2))};

    assertThat(size(ShapeExtrapolation.change(shape, moved, shape))).isCloseTo(0, within(1e-12));
    assertThat(size(ShapeExtrapolation.change(shape, other, shape))).isGreaterThan(0.05);
  }

  /** A turn that gives back a tenth of what is missing early in a shape, half of it late in it. */
  private static double[][] turned(double[][] now, double[][] end) {
    double[][] turned = new double[now.length][LENGTH];
    for (int p = 0; p < now.length; p++) {
      for (int k = 0; k < LENGTH; k++) {
        double kept = k < LENGTH / 2 ? 0.9 : 0.5;
        turned[p][k] = end[p][k] + kept * (now[p][k] - end[p][k]);
      }
    }
    return turned;
  }

  private static double farthest(double[][] now, double[][] end) {
    double farthest = 0;
    for (int p = 0; p < now.length; p++) {
      for (int k = 0; k < LENGTH; k++) {
        farthest = Math.max(farthest, Math.abs(now[p][k] - end[p][k]));
      }
    }
    return farthest;
  }

  private static double[] wave(int middle, double width) {
    double[] wave = new double[LENGTH];
    for (int k = 0; k < LENGTH; k++) {
      double x = (k - middle) / width;
      wave[k] = -x * Math.exp(-x * x / 2);
    }
    return wave;
  }

  private static double[] plus(double[] wave, double factor, double[] other) {
    double[] sum = wave.clone();
    for (int k = 0; k < LENGTH; k++) {
      sum[k] += factor * other[k];
    }
    return sum;
  }

  private static double size(double[] values) {
    return Math.sqrt(Arrays.stream(values).map(value -> value * value).sum());
  }
}
