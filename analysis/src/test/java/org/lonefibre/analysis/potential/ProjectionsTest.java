package org.lonefibre.analysis.potential;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Random;
import org.junit.jupiter.api.Test;

class ProjectionsTest {

  private final double[] window = new Random(3).doubles(90, -1, 1).toArray();

  /** At the window's ends too, where a part of the wave lies outside, and where all of it does. */
  @Test
  void areThePlainSumsOfProductsAtEveryPlace() {
    for (int length : new int[] {1, 2, 7, 16, 33}) {
      double[] wave = new Random(length).doubles(length, -1, 1).toArray();
      int first = -length - 3;
      int count = window.length + 2 * length + 6;
      double[] sums = Projections.along(window, first, wave, count);
      assertThat(sums).hasSize(count);
      for (int k = 0; k < count; k++) {
        double plain = plain(first + k, wave);
        assertThat(sums[k]).isCloseTo(plain, within(1e-13));
        assertThat(Projections.at(window, first + k, wave)).isCloseTo(plain, within(1e-13));
      }
    }
  }

  /** A scan by halves is that of each place alone. */
  @Test
  void ofAShapeByHalvesAreThoseOfEachPlace() {
    PotentialShape shape = new PotentialShape(new Random(5).doubles(20, -1, 1).toArray(), 8);
    double[] scanned = shape.projectByHalves(window, 11.3, 41);
    for (int k = 0; k < scanned.length; k++) {
      assertThat(scanned[k]).isCloseTo(shape.project(window, 11.3 + 0.5 * k), within(1e-13));
    }
  }

  private double plain(int first, double[] wave) {
    double sum = 0;
    for (int k = 0; k < wave.length; k++) {
      sum += first + k >= 0 && first + k < window.length ? wave[k] * window[first + k] : 0;
    }
    return sum;
  }
}
