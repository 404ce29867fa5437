package org.lonefibre.analysis.grading;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import org.lonefibre.signal.random.RandomStream;

class NoiseWhitenerTest {

  private static final int LENGTH = 40;
  private static final double MEMORY = 0.8;
  private static final double NOISE_UV = 7;

  @Test
  void correlatedNoiseBecomesWhiteWithADeviationOfOne() {
    double[] correlation = new double[LENGTH];
    for (int lag = 0; lag < LENGTH; lag++) {
      correlation[lag] = Math.pow(MEMORY, lag);
    }
    NoiseWhitener whitener = new NoiseWhitener(NOISE_UV, correlation, LENGTH);
    RandomStream random = RandomStream.of(4);
    double square = 0;
    double neighbours = 0;
    int rows = 4000;
    for (int r = 0; r < rows; r++) {
      double[] row = new double[LENGTH];
      double value = random.gaussianRatio();
      for (int k = 0; k < LENGTH; k++) {
        row[k] = NOISE_UV * value;
        value = MEMORY * value + Math.sqrt(1 - MEMORY * MEMORY) * random.gaussianRatio();
      }
      double[] white = whitener.whiten(row);
      for (int k = 1; k < LENGTH; k++) {
        square += white[k] * white[k];
        neighbours += white[k] * white[k - 1];
      }
    }
    double count = rows * (LENGTH - 1.0);
    assertThat(square / count).isBetween(0.96, 1.02);
    assertThat(neighbours / count).isBetween(-0.02, 0.02);
  }

  @Test
  void anUncertainWaveFades() {
    double[] wave = new double[LENGTH];
    for (int k = 0; k < LENGTH; k++) {
      wave[k] = 100 * Math.sin(0.3 * k);
    }
    double[] white = {1};
    double sure = Wave.norm(new NoiseWhitener(1, white, LENGTH).whiten(wave));
    double unsure = Wave.norm(new NoiseWhitener(1, white, LENGTH, wave).whiten(wave));
    assertThat(sure).isGreaterThan(300);
    assertThat(unsure).isLessThan(1.01);
  }

  @Test
  void weightsGiveTheProductOfTheWhitenedWaveWithADirection() {
    double[] correlation = new double[LENGTH];
    double[] wave = new double[LENGTH];
    double[] direction = new double[LENGTH];
    RandomStream random = RandomStream.of(5);
    for (int k = 0; k < LENGTH; k++) {
      correlation[k] = Math.pow(MEMORY, k);
      wave[k] = 100 * random.gaussianRatio();
      direction[k] = random.gaussianRatio();
    }
    NoiseWhitener whitener = new NoiseWhitener(NOISE_UV, correlation, LENGTH, wave);
    double expected = Wave.dot(whitener.whiten(wave), direction);
    assertThat(Wave.dot(wave, whitener.weights(direction)))
        .isCloseTo(expected, org.assertj.core.api.Assertions.within(1e-9 * Math.abs(expected)));
  }
}
