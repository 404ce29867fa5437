package org.lonefibre.analysis.grading;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;

/** What is slow in the size of sweeps goes, noise and what changes from sweep to sweep stay. */
@Tag("unit")
class SteadySizeTest {

  private static final int SWEEPS = 100;
  private static final int LENGTH = 60;

  @Test
  void aStepOfTheSizeGoesAndTheNoiseStays() {
    Random random = new Random(3);
    List<double[]> rows = new ArrayList<>();
    for (int i = 0; i < SWEEPS; i++) {
      rows.add(row(i < SWEEPS / 2 ? 300 : 170, 10, random));
    }
    List<double[]> steady = SteadySize.of(rows);
    double least = Double.POSITIVE_INFINITY;
    double most = 0;
    double squares = 0;
    for (int i = 0; i < SWEEPS; i++) {
      if (Math.abs(i - SWEEPS / 2) < 11) {
        continue;
      }
      double[] row = steady.get(i);
      double size = Wave.dot(row, shape()) / Wave.dot(shape(), shape());
      least = Math.min(least, size);
      most = Math.max(most, size);
      for (int k = 0; k < 10; k++) {
        squares += row[k] * row[k] / 10 / (SWEEPS - 21);
      }
    }
    assertThat(most - least).isLessThan(30);
    assertThat(Math.sqrt(squares)).isBetween(9.0, 11.0);
  }

  @Test
  void whatChangesFromSweepToSweepStays() {
    Random random = new Random(4);
    List<double[]> rows = new ArrayList<>();
    for (int i = 0; i < SWEEPS; i++) {
      rows.add(row(i % 2 == 0 ? 300 : 240, 0, random));
    }
    List<double[]> steady = SteadySize.of(rows);
    double change = 0;
    for (int i = 1; i < SWEEPS; i++) {
      change +=
          Math.abs(Wave.dot(steady.get(i), shape()) - Wave.dot(steady.get(i - 1), shape()))
              / Wave.dot(shape(), shape())
              / (SWEEPS - 1);
    }
    assertThat(change).isBetween(50.0, 70.0);
  }

  private static double[] shape() {
    double[] shape = new double[LENGTH];
    for (int k = 0; k < LENGTH; k++) {
      double t = (k - 30) / 5.0;
      shape[k] = -t * Math.exp(-t * t / 2);
    }
    return shape;
  }

  private static double[] row(double size, double noise, Random random) {
    double[] row = shape();
    for (int k = 0; k < LENGTH; k++) {
      row[k] = size * row[k] + noise * random.nextGaussian();
    }
    return row;
  }
}
