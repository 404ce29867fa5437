package org.lonefibre.analysis.potential;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Random;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;

/** Shapes that are the mean of 40 discharges in white noise find arrivals as well as true ones. */
@Tag("unit")
class NoiseWeightsTest {

  private static final int LENGTH = 125;
  private static final int ORIGIN = 50;
  private static final int REACH = 40;
  private static final int DISCHARGES = 40;
  private static final int SHAPES = 30;
  private static final int EACH = 200;
  private static final double WIDTH_SAMPLES = 6;
  private static final double NOISE_UV = 10;
  private static final double SIZE_UV = 50;

  private final double[] correlation = new double[LENGTH];
  private final NoiseWeights weights = new NoiseWeights(NOISE_UV, correlation, REACH);
  private Random random = new Random(1);

  @BeforeEach
  void white() {
    correlation[0] = 1;
    random = new Random(1);
  }

  /** The noisy shape as its own weight loses more than a fifth here. */
  @Test
  void noiseInTheShapeCostsLittle() {
    double byWeights = 0;
    double byItself = 0;
    double stated = 0;
    for (int s = 0; s < SHAPES; s++) {
      PotentialShape noisy = noisyShape();
      WeightedShape weighted = weights.weigh(noisy, DISCHARGES);
      stated += weighted.errorSamples() / SHAPES;
      byWeights += meanSquare(weighted.own(), weighted.weighted()) / SHAPES;
      byItself += meanSquare(noisy, noisy) / SHAPES;
    }
    double bound = NOISE_UV / Math.sqrt(shape(trueWave()).slopeEnergy());
    assertThat(Math.sqrt(byWeights)).isBetween(0.97 * bound, 1.08 * bound);
    assertThat(Math.sqrt(byItself)).isGreaterThan(1.2 * bound);
    assertThat(stated / Math.sqrt(byWeights)).isCloseTo(1, within(0.08));
  }

  /** Nothing to filter by is no reason to have no error. */
  @Test
  void aShapeOfNoiseStillHasAnError() {
    double[] wave = new double[LENGTH];
    for (int i = 0; i < LENGTH; i++) {
      wave[i] = NOISE_UV / 10 * random.nextGaussian();
    }
    assertThat(weights.weigh(shape(wave), 1).errorSamples()).isPositive().isFinite();
  }

  /** Of the step that one discharge in noise takes, its true arrival at the origin. */
  private double meanSquare(PotentialShape own, PotentialShape weighted) {
    double[] slope = own.slopeAt(own.origin());
    double[] weightedSlope = weighted.slopeAt(weighted.origin());
    double trueGain = 0;
    double[] trueSlope = shape(trueWave()).slopeAt(ORIGIN);
    for (int i = 0; i < LENGTH; i++) {
      trueGain += trueSlope[i] * weightedSlope[i + own.origin() - ORIGIN];
    }
    assertThat(slope).hasSameSizeAs(weightedSlope);
    double sum = 0;
    for (int e = 0; e < EACH; e++) {
      double product = 0;
      for (double value : weightedSlope) {
        product += value * NOISE_UV * random.nextGaussian();
      }
      sum += product * product / trueGain / trueGain;
    }
    return sum / EACH;
  }

  private PotentialShape noisyShape() {
    double[] wave = trueWave();
    for (int i = 0; i < LENGTH; i++) {
      wave[i] += NOISE_UV / Math.sqrt(DISCHARGES) * random.nextGaussian();
    }
    return shape(wave);
  }

  private static double[] trueWave() {
    double[] wave = new double[LENGTH];
    for (int i = 0; i < LENGTH; i++) {
      double u = (i - ORIGIN) / WIDTH_SAMPLES;
      wave[i] = SIZE_UV * (1 - u * u) * Math.exp(-u * u / 2);
    }
    return wave;
  }

  private static PotentialShape shape(double[] wave) {
    return new PotentialShape(wave, ORIGIN);
  }
}
