package org.lonefibre.validation.campaign;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.hipparchus.stat.descriptive.DescriptiveStatistics;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.lonefibre.signal.random.RandomStream;

class TimingCampaignTest {

  /** Two equal Gaussian bells far apart in white noise: slope energy sqrt(pi) a^2 / (2 width). */
  @ParameterizedTest
  @CsvSource({"5, 10", "8, 10", "8, 40"})
  void boundIsThatOfTheFormula(double width, double size) {
    double[] bell = new double[121];
    for (int k = 0; k < bell.length; k++) {
      double x = (k - 60) / width;
      bell[k] = size * Math.exp(-x * x / 2);
    }
    double slopeEnergy = size * size * Math.sqrt(Math.PI) / (2 * width);
    double expected = Math.sqrt(2 / slopeEnergy);
    assertThat(ArrivalBound.intervalSamples(bell, 1, 400, w -> 1))
        .isCloseTo(expected, within(1e-3 * expected));
  }

  /** The bound goes with the noise and hardly with the rate, as in the computed table. */
  @Test
  void boundGoesWithTheNoise() {
    TimingCell usual = new TimingCell(50_000, false, 20, 2500);
    double bound = TimingCampaign.boundUs(usual);
    assertThat(TimingCampaign.boundUs(new TimingCell(50_000, false, 200, 2500)))
        .isCloseTo(bound / 10, within(0.01 * bound));
    // 66 / 62 between 20 and 50 kHz, 62 / 62 between 50 and 100 kHz.
    assertThat(TimingCampaign.boundUs(new TimingCell(20_000, false, 20, 2500)))
        .isCloseTo(bound, within(0.08 * bound));
    assertThat(TimingCampaign.boundUs(new TimingCell(100_000, false, 20, 2500)))
        .isCloseTo(bound, within(0.08 * bound));
  }

  /** The noise has the spectrum that the bound is told. */
  @Test
  void colouredNoiseHasItsSpectrum() {
    TimingCell cell = new TimingCell(50_000, true, 20, 2500);
    RandomStream random = RandomStream.of(3);
    int length = 512;
    int[] bins = {5, 20, 60, 150};
    DescriptiveStatistics[] power = new DescriptiveStatistics[bins.length];
    for (int b = 0; b < bins.length; b++) {
      power[b] = new DescriptiveStatistics();
    }
    for (int block = 0; block < 1500; block++) {
      double[] noise = new double[3 * length];
      for (int i = 0; i < noise.length; i++) {
        noise[i] = random.gaussianRatio();
      }
      cell.colour(noise);
      for (int b = 0; b < bins.length; b++) {
        double re = 0;
        double im = 0;
        for (int n = 0; n < length; n++) {
          double w = 2 * Math.PI * bins[b] * n / length;
          re += noise[2 * length + n] * Math.cos(w);
          im += noise[2 * length + n] * Math.sin(w);
        }
        power[b].addValue((re * re + im * im) / length);
      }
    }
    for (int b = 0; b < bins.length; b++) {
      double stated = cell.noisePower(2 * Math.PI * bins[b] / length);
      double error = power[b].getStandardDeviation() / Math.sqrt(power[b].getN());
      assertThat(power[b].getMean()).isCloseTo(stated, within(4 * error + 0.02 * stated));
    }
  }

  /** Two recordings a cell: the error lies at the bound and is stated as large as it is. */
  @Tag("property")
  @ParameterizedTest
  @CsvSource({"20000, true, 20, 700", "50000, false, 30, 2500", "50000, true, 100, 700"})
  void arrivalsLieAtTheBound(double rateHz, boolean coloured, double snr, double distanceUs) {
    TimingCell cell = new TimingCell(rateHz, coloured, snr, distanceUs);
    TimingTrial found = TimingCampaign.run(cell, 5, 2);
    double chance = 1 + 3.5 / Math.sqrt(2.0 * found.chain().count());
    assertThat(found.chain().count()).isGreaterThan(180);
    assertThat(found.chain().realUs() / TimingCampaign.boundUs(cell)).isLessThan(1.1 * chance);
    assertThat(found.chain().statedUs() / found.chain().realUs())
        .isBetween(0.9 / chance, 1.1 * chance);
    assertThat(found.threshold().realUs()).isGreaterThan(found.chain().realUs());
    assertThat(found.peak().realUs()).isGreaterThan(found.threshold().realUs());
  }

  /** Noise that a shape's estimate keeps does not widen the error where the potential is small. */
  @Test
  @Tag("property")
  void smallPotentialsLieAtTheBoundToo() {
    TimingCell cell = new TimingCell(20_000, false, 10, 2500);
    TimingTrial found = TimingCampaign.run(cell, 8, 30);
    assertThat(found.chain().count()).isGreaterThan(2900);
    assertThat(found.chain().realUs() / TimingCampaign.boundUs(cell)).isLessThan(1.1);
    assertThat(found.chain().statedUs() / found.chain().realUs()).isBetween(0.93, 1.07);
  }

  /** Taken up now at one, now at the other, both are one unit all the same. */
  @Test
  @Tag("property")
  void likePotentialsInNoiseAreFound() {
    TimingTrial found = TimingCampaign.run(new TimingCell(50_000, false, 10, 2500), 7, 28);
    assertThat(found.chain().count()).isGreaterThan(2750);
  }

  @Test
  void aTrialCanBeRepeated() {
    assertThat(new TimingCampaign().replay(1, 3, 0))
        .isEqualTo(new TimingCampaign().replay(1, 3, 0));
  }
}
