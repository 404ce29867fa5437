package org.lonefibre.analysis.grading;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.lonefibre.signal.random.RandomStream;
import org.lonefibre.signal.recording.TimeBase;

/** Sweeps of one fibre and of two, in white noise, made here. */
class ShapeScanTest {

  private static final TimeBase TIME = TimeBase.ofHz(50_000L);
  private static final int LENGTH = 61;
  private static final int ORIGIN = 25;
  private static final int SWEEPS = 60;
  private static final double SIZE_UV = 1000;
  private static final double NOISE_UV = 50;
  private static final double JITTER_SAMPLES = 1.5;

  /** What varies from sweep to sweep. */
  private record Site(double secondRatio, double sizeDeviation, int foreign) {}

  private final RandomStream random = RandomStream.of(11);
  private final double[] relative = new double[SWEEPS];

  private static double spike(double samples) {
    double x = samples / 5;
    return -SIZE_UV / 1.2 * x * Math.exp(-0.5 * x * x) * Math.exp(0.5) / 2;
  }

  private List<double[]> sweeps(Site site) {
    List<double[]> rows = new ArrayList<>();
    for (int i = 0; i < SWEEPS; i++) {
      double own = JITTER_SAMPLES * random.gaussianRatio();
      double moves = JITTER_SAMPLES * random.gaussianRatio() - own;
      double size = 1 + site.sizeDeviation() * random.gaussianRatio();
      relative[i] = own;
      double[] row = noise();
      for (int k = 0; k < LENGTH; k++) {
        row[k] += size * spike(k - ORIGIN) + site.secondRatio() * spike(k - ORIGIN - 10 - moves);
        row[k] += i < site.foreign() ? 2 * spike(k - 40 + 4 * i) : 0;
      }
      rows.add(row);
    }
    return rows;
  }

  private double[] noise() {
    double[] row = new double[LENGTH];
    for (int k = 0; k < LENGTH; k++) {
      row[k] = NOISE_UV * random.gaussianRatio();
    }
    return row;
  }

  private double evidence(Site site, boolean follows) {
    List<double[]> rows = sweeps(site);
    List<double[]> baseline = new ArrayList<>();
    for (int i = 0; i < 4 * SWEEPS; i++) {
      baseline.add(noise());
    }
    double[] white = {1};
    UndisturbedSweeps usual = new UndisturbedSweeps(rows, relative, NOISE_UV, TIME);
    return new ShapeScan(usual, baseline, List.of(), NOISE_UV, white, 0, TIME).evidence(follows);
  }

  /** Evidence where a wave of a neighbour is in each sweep, more or less of it; noise is low. */
  private double besideOneThatWidens(boolean isKnown) {
    double noiseUv = NOISE_UV / 5;
    double[] tail = new double[LENGTH];
    for (int k = 0; k < LENGTH; k++) {
      tail[k] = 6 * Math.abs(spike(k + 8.0)) - 3 * Math.abs(spike(k - 4.0));
    }
    List<double[]> rows = new ArrayList<>();
    List<double[]> baseline = new ArrayList<>();
    for (int i = 0; i < SWEEPS; i++) {
      double wider = 0.015 * random.gaussianRatio();
      double[] row = Wave.times(0.2, noise());
      for (int k = 0; k < LENGTH; k++) {
        row[k] += spike(k - ORIGIN) + wider * tail[k];
      }
      rows.add(row);
    }
    for (int i = 0; i < 4 * SWEEPS; i++) {
      baseline.add(Wave.times(0.2, noise()));
    }
    UndisturbedSweeps usual = new UndisturbedSweeps(rows, new double[SWEEPS], noiseUv, TIME);
    List<double[]> widenings = isKnown ? List.of(tail) : List.of();
    return new ShapeScan(usual, baseline, widenings, noiseUv, new double[] {1}, 0, TIME)
        .evidence(false);
  }

  @Test
  void aNeighbourThatWidensIsNotASecondFibre() {
    assertThat(besideOneThatWidens(false)).isGreaterThan(3);
    assertThat(besideOneThatWidens(true)).isLessThan(0);
  }

  @Test
  void oneFibreSpeaksAgainstASecondAndTwoSpeakForIt() {
    for (int repeat = 0; repeat < 10; repeat++) {
      assertThat(evidence(new Site(0, 0, 0), true)).isBetween(-4.0, 0.5);
      assertThat(evidence(new Site(0.5, 0, 0), true)).isGreaterThan(8);
    }
  }

  @Test
  void movementAgainstTheArrivalsAddsToTheEvidenceOfASmallFibre() {
    double alone = 0;
    double followed = 0;
    for (int repeat = 0; repeat < 20; repeat++) {
      Site site = new Site(0.12, 0, 0);
      alone += evidence(site, false);
      followed += evidence(site, true);
    }
    assertThat(followed).isGreaterThan(1.3 * Math.max(0, alone) + 20);
  }

  @Test
  void sizeThatVariesIsNotASecondFibre() {
    for (double deviation : new double[] {0.06, 0.12}) {
      double sum = 0;
      for (int repeat = 0; repeat < 10; repeat++) {
        sum += evidence(new Site(0, deviation, 0), true);
      }
      assertThat(sum / 10).as("size varies by %.2f", deviation).isLessThan(0);
    }
  }

  @Test
  void foreignPotentialsInFiveSweepsAreNotASecondFibre() {
    double sum = 0;
    for (int repeat = 0; repeat < 10; repeat++) {
      sum += evidence(new Site(0, 0, 5), true);
    }
    assertThat(sum / 10).isLessThan(0);
  }

  @Test
  void onlySweepsWithAForeignPotentialAreLeftOut() {
    List<double[]> rows = sweeps(new Site(0, 0, 4));
    UndisturbedSweeps usual = new UndisturbedSweeps(rows, relative, NOISE_UV, TIME);
    assertThat(usual.rows).doesNotContainAnyElementsOf(rows.subList(0, 4));
    assertThat(usual.rows).containsAll(rows.subList(4, SWEEPS));
    assertThat(usual.relativeSamples[0]).isEqualTo(relative[4]);
    assertThat(usual.relativeSamples).hasSize(SWEEPS - 4);
    List<double[]> all = sweeps(new Site(0, 0, 20));
    assertThat(new UndisturbedSweeps(all, relative, NOISE_UV, TIME).rows)
        .hasSizeGreaterThanOrEqualTo(SWEEPS * 9 / 10);
  }
}
