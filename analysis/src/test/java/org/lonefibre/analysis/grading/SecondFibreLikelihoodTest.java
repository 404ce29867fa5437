package org.lonefibre.analysis.grading;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.lonefibre.signal.random.RandomStream;

/** What moves in sixty sweeps, made here: noise, and a second fibre that moves by itself. */
class SecondFibreLikelihoodTest {

  private static final int SWEEPS = 60;
  private static final int REPEATS = 40;

  private final RandomStream random = RandomStream.of(23);

  private double[] noise() {
    return IntStream.range(0, SWEEPS).mapToDouble(i -> random.gaussianRatio()).toArray();
  }

  private double meanOfNoise(double noiseUs) {
    return IntStream.range(0, REPEATS)
        .mapToDouble(i -> SecondFibreLikelihood.alone().logRatio(noise(), noiseUs))
        .average()
        .orElseThrow();
  }

  /** A fibre of this size beside one that moves by 30 us, seen against one that moves by 15 us. */
  private double[] logs(double size, double noiseUs) {
    double alone = 0;
    double beside = 0;
    for (int repeat = 0; repeat < REPEATS; repeat++) {
      double[] moves = noise();
      double[] relativeUs = new double[SWEEPS];
      for (int i = 0; i < SWEEPS; i++) {
        double own = 30 * random.gaussianRatio();
        relativeUs[i] = own + 15 * random.gaussianRatio();
        moves[i] += size * (own - 30 * random.gaussianRatio()) / noiseUs;
      }
      alone += SecondFibreLikelihood.alone().logRatio(moves, noiseUs) / REPEATS;
      beside += SecondFibreLikelihood.beside(relativeUs).logRatio(moves, noiseUs) / REPEATS;
    }
    return new double[] {alone, beside};
  }

  @Test
  void whereNoiseWouldHideAnySecondFibreNothingIsSaid() {
    assertThat(SecondFibreLikelihood.alone().logRatio(noise(), 1e5)).isCloseTo(0, within(1e-4));
  }

  @Test
  void noiseAloneSpeaksForOneFibreTheMoreTheLessItCouldHide() {
    double loud = meanOfNoise(40);
    double quiet = meanOfNoise(5);
    assertThat(loud).isBetween(-1.5, 0.0);
    assertThat(quiet).isLessThan(loud - 0.3);
  }

  @Test
  void aSecondFibreIsFoundAndTheArrivalsTellMoreThanVariance() {
    double[] small = logs(0.15, 7);
    double[] large = logs(0.5, 7);
    assertThat(large[0]).isGreaterThan(12);
    assertThat(large[1]).isGreaterThan(large[0]);
    assertThat(small[1]).isGreaterThan(small[0] + 1).isGreaterThan(3);
  }

  @Test
  void whatMovesWithTheArrivalsIsNotASecondFibre() {
    double sum = 0;
    for (int repeat = 0; repeat < REPEATS; repeat++) {
      double[] moves = noise();
      double[] relativeUs = new double[SWEEPS];
      for (int i = 0; i < SWEEPS; i++) {
        relativeUs[i] = 30 * random.gaussianRatio();
        moves[i] -= 0.5 * relativeUs[i] / 30;
      }
      sum += SecondFibreLikelihood.beside(relativeUs).logRatio(moves, 7);
    }
    assertThat(sum / REPEATS).isLessThan(-0.5);
  }

  @Test
  void oneSweepHoweverFarTellsLittle() {
    double[] moves = noise();
    double usual = SecondFibreLikelihood.alone().logRatio(moves, 7);
    moves[7] = 1000;
    assertThat(SecondFibreLikelihood.alone().logRatio(moves, 7)).isLessThan(usual + 2);
    moves[7] = 4;
    double four = SecondFibreLikelihood.alone().logRatio(moves, 7);
    moves[7] = 1000;
    assertThat(SecondFibreLikelihood.alone().logRatio(moves, 7)).isLessThanOrEqualTo(four);
  }

  @Test
  void arrivalsKnownInEverySecondSweepTellLessThanAllAndMoreThanNone() {
    double none = 0;
    double half = 0;
    double all = 0;
    for (int repeat = 0; repeat < REPEATS; repeat++) {
      double[] moves = noise();
      double[] relativeUs = new double[SWEEPS];
      double[] halfUs = new double[SWEEPS];
      for (int i = 0; i < SWEEPS; i++) {
        relativeUs[i] = 30 * random.gaussianRatio();
        halfUs[i] = i % 2 == 0 ? relativeUs[i] : Double.NaN;
        moves[i] += 0.15 * (relativeUs[i] - 30 * random.gaussianRatio()) / 7;
      }
      none += SecondFibreLikelihood.alone().logRatio(moves, 7) / REPEATS;
      half += SecondFibreLikelihood.beside(halfUs).logRatio(moves, 7) / REPEATS;
      all += SecondFibreLikelihood.beside(relativeUs).logRatio(moves, 7) / REPEATS;
    }
    assertThat(half).isBetween(none + 0.3, all - 0.3);
  }

  @Test
  void theMeanOfWhatHasTheseLogarithms() {
    assertThat(SecondFibreLikelihood.logMean(new double[] {Math.log(1), Math.log(3)}))
        .isCloseTo(Math.log(2), within(1e-12));
    assertThat(SecondFibreLikelihood.logMean(new double[] {-2000, -2000})).isEqualTo(-2000);
  }
}
