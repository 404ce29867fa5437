package org.lonefibre.analysis.grading;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.lonefibre.signal.recording.TimeBase;

/**
 * Two fibres of one form, drawn at 50 kHz in white noise; each row aligned on the first but for a
 * little.
 */
@Tag("property")
class ComponentDropOutTest {

  private static final TimeBase TIME = TimeBase.ofHz(50_000);
  private static final int ORIGIN = 40;
  private static final int LENGTH = 86;
  private static final double SIZE_UV = 300;
  private static final double NOISE_UV = 8;

  @ParameterizedTest(name = "seed {0}, second fibre {1} us later, moving by {2} us")
  @CsvSource({"1, 120, 25", "2, 180, 25", "3, 180, 60", "4, -150, 60", "5, 240, 90"})
  void aFibreThatFailsIsFoundWithItsSizeAndSweeps(long seed, double delayUs, double movesUs) {
    Random random = new Random(seed);
    List<Integer> lost = new ArrayList<>();
    List<double[]> rows = rows(random, delayUs, movesUs, 0.15, lost);
    ComponentDropOut.Step step =
        new ComponentDropOut(rows, baseline(random), ORIGIN, NOISE_UV, TIME).find().orElseThrow();
    assertThat(step.lossRatio()).isBetween(0.3, 0.43);
    assertThat(step.sweeps()).isEqualTo(rows.size());
    assertThat(lost).containsAll(step.lost());
    assertThat(step.lost()).hasSizeGreaterThanOrEqualTo((int) (0.8 * lost.size()));
  }

  @ParameterizedTest(name = "seed {0}, second fibre {1} us later, moving by {2} us")
  @CsvSource({
    "11, 120, 25",
    "12, 180, 25",
    "13, 180, 60",
    "14, -150, 60",
    "15, 240, 90",
    "16, 0, 90",
    "17, 90, 0",
    "18, 250, 120",
    "19, 60, 60",
    "20, -200, 40"
  })
  void fibresThatOnlyMoveAreNone(long seed, double delayUs, double movesUs) {
    Random random = new Random(seed);
    List<double[]> rows = rows(random, delayUs, movesUs, 0, new ArrayList<>());
    assertThat(new ComponentDropOut(rows, baseline(random), ORIGIN, NOISE_UV, TIME).find())
        .isEmpty();
  }

  /** A size that falls once, as when the needle moves, is no drop-out. */
  @ParameterizedTest(name = "seed {0}")
  @CsvSource({"21", "22"})
  void aStepThatStaysIsNone(long seed) {
    Random random = new Random(seed);
    List<double[]> rows = new ArrayList<>();
    for (int i = 0; i < 120; i++) {
      rows.add(row(random, i < 60 ? 150 : Double.NaN));
    }
    assertThat(new ComponentDropOut(rows, baseline(random), ORIGIN, NOISE_UV, TIME).find())
        .isEmpty();
  }

  private static List<double[]> rows(
      Random random, double delayUs, double movesUs, double fails, List<Integer> lost) {
    List<double[]> rows = new ArrayList<>();
    for (int i = 0; i < 120; i++) {
      boolean isLost = random.nextDouble() < fails;
      if (isLost) {
        lost.add(i);
      }
      double delay = delayUs + movesUs * random.nextGaussian();
      rows.add(row(random, isLost ? Double.NaN : delay));
    }
    return rows;
  }

  private static double[] row(Random random, double secondUs) {
    double alignedUs = 12 * random.nextGaussian();
    double[] row = new double[LENGTH];
    for (int k = 0; k < LENGTH; k++) {
      double timeUs = 20.0 * (k - ORIGIN) - alignedUs;
      double second = Double.isNaN(secondUs) ? 0 : 0.6 * wave(timeUs - secondUs);
      row[k] = SIZE_UV * (wave(timeUs) + second) + NOISE_UV * random.nextGaussian();
    }
    return row;
  }

  private static List<double[]> baseline(Random random) {
    List<double[]> baseline = new ArrayList<>();
    for (int i = 0; i < 60; i++) {
      baseline.add(random.doubles(LENGTH, -1, 1).map(x -> NOISE_UV * Math.sqrt(3) * x).toArray());
    }
    return baseline;
  }

  /** Positive, steeply negative, and a slow rest. */
  private static double wave(double timeUs) {
    double rise = Math.exp(-Math.pow((timeUs + 75) / 70, 2) / 2);
    double fall = Math.exp(-Math.pow((timeUs - 75) / 80, 2) / 2);
    return 0.8 * rise - fall + 0.15 * Math.exp(-Math.pow((timeUs - 350) / 150, 2) / 2);
  }
}
