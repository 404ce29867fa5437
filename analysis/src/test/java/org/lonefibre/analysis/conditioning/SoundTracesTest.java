package org.lonefibre.analysis.conditioning;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.util.List;
import java.util.Random;
import org.jtransforms.fft.DoubleFFT_1D;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.lonefibre.signal.recording.Channel;
import org.lonefibre.signal.recording.Finding;
import org.lonefibre.signal.recording.FindingCode;
import org.lonefibre.signal.recording.Segment;
import org.lonefibre.signal.recording.TimeBase;

class SoundTracesTest {

  private static final int COUNT = 1 << 19;

  private static List<Finding> findings(double[] samples, double rateHz) throws IOException {
    Channel channel =
        new Channel(
            1,
            "needle",
            "uV",
            Channel.Calibration.MICROVOLT,
            TimeBase.ofHz(rateHz),
            samples.length,
            List.of(new Segment(0, samples.length, 0)),
            -50_000.0,
            50_000.0,
            0.1,
            "");
    return new Conditioner(ConditioningSettings.singleFibre())
        .condition(new MemoryRecording(channel, samples), channel)
        .findings();
  }

  /** Noise with a pulse of 300 uV about ten times a second. */
  private static double[] needle(long seed, double rateHz) {
    Random random = new Random(seed);
    double[] samples = new double[COUNT];
    for (int k = 0; k < COUNT; k++) {
      samples[k] = 15 * random.nextGaussian();
    }
    double widthSamples = 0.0001 * rateHz;
    for (int at = 1000;
        at < COUNT - 1000;
        at += (int) (rateHz * (0.09 + 0.02 * random.nextDouble()))) {
      for (int j = -200; j < 200; j++) {
        double x = j / widthSamples;
        samples[at + j] += 300 * x * Math.exp(-x * x);
      }
    }
    return samples;
  }

  @ParameterizedTest
  @CsvSource({"44100, 16000", "48000, 12000", "48000, 8000", "16000, 4000"})
  void aWallFarBelowHalfTheRateIsFoundWhereItStands(double rateHz, double wallHz)
      throws IOException {
    double[] samples = needle(1, rateHz);
    DoubleFFT_1D transform = new DoubleFFT_1D(COUNT);
    transform.realForward(samples);
    for (int k = (int) (wallHz * COUNT / rateHz); k < COUNT / 2; k++) {
      samples[2 * k] = 0;
      samples[2 * k + 1] = 0;
    }
    transform.realInverse(samples, true);
    for (int k = 0; k < COUNT; k++) {
      samples[k] = 0.1 * Math.rint(samples[k] / 0.1);
    }
    Finding found =
        findings(samples, rateHz).stream()
            .filter(f -> f.code() == FindingCode.LOSSY_CODING)
            .findFirst()
            .orElseThrow();
    assertThat(found.evidence().quantities().get(0).value()).isCloseTo(wallHz, within(600.0));
  }

  @ParameterizedTest
  @ValueSource(longs = {1, 2, 3, 4, 5})
  void aNeedleThroughOrdinaryFiltersHasNeither(long seed) throws IOException {
    for (double rateHz : new double[] {20_000, 44_100, 50_000, 100_000}) {
      double[] samples = needle(seed, rateHz);
      // Three poles one after the other, at 5 kHz.
      double pole = Math.exp(-2 * Math.PI * 5000 / rateHz);
      for (int times = 0; times < 3; times++) {
        for (int k = 1; k < COUNT; k++) {
          samples[k] = pole * samples[k - 1] + (1 - pole) * samples[k];
        }
      }
      assertThat(findings(samples, rateHz))
          .extracting(Finding::code)
          .doesNotContain(FindingCode.LOSSY_CODING, FindingCode.AUTOMATIC_GAIN);
    }
  }

  @Test
  void aGainThatFollowsTheLoudnessIsFound() throws IOException {
    double[] samples = needle(3, 48_000);
    Random random = new Random(9);
    double loudness = 20;
    double level = 20;
    for (int k = 0; k < COUNT; k++) {
      // Contraction comes and goes every second; the gain halves its range in decibels.
      double strength = Math.sin(2 * Math.PI * k / 48_000.0) > 0 ? 200 : 0;
      double burst = random.nextInt(200) == 0 ? strength * random.nextGaussian() * 3 : 0;
      samples[k] += burst;
      level = Math.max(Math.abs(samples[k]), level * (1 - 1 / 4_800.0));
      loudness += (level - loudness) / 480;
      samples[k] *= Math.sqrt(100 / (20 + loudness));
    }
    assertThat(findings(samples, 48_000))
        .extracting(Finding::code)
        .contains(FindingCode.AUTOMATIC_GAIN);
  }
}
