package org.lonefibre.formats.reader;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.lonefibre.formats.reader.SiteCutter.SiteStretch;
import org.lonefibre.formats.writer.MadeRecording;
import org.lonefibre.signal.recording.TimeBase;

class SignalSitesTest {

  private static final int RATE = 20_000;

  /** Noise of 5 uV, discharges of 400 uV ten times a second from and to the times given. */
  private static double[] signal(long seed, double lengthS, double[]... active) {
    Random random = new Random(seed);
    double[] samples = new double[(int) (lengthS * RATE)];
    for (int k = 0; k < samples.length; k++) {
      samples[k] = 5 * random.nextGaussian();
    }
    for (double[] stretch : active) {
      for (double at = stretch[0]; at < stretch[1]; at += 0.09 + 0.02 * random.nextDouble()) {
        int first = (int) (at * RATE);
        for (int j = 0; j < 20 && first + j < samples.length; j++) {
          samples[first + j] += 400 * Math.sin(2 * Math.PI * j / 20);
        }
      }
    }
    return samples;
  }

  private static List<SiteStretch> sites(double[] samples) throws IOException {
    MadeRecording made = new MadeRecording().channel("needle", TimeBase.ofHz(RATE), samples, null);
    return SignalSites.list(made, made.channels().get(0));
  }

  @ParameterizedTest
  @ValueSource(longs = {1, 2, 3, 4})
  void aPauseOfTwoSecondsDividesAndAShorterOneDoesNot(long seed) throws IOException {
    List<SiteStretch> sites =
        sites(signal(seed, 30, new double[] {1, 8}, new double[] {9.5, 14}, new double[] {18, 29}));
    assertThat(sites).extracting(SiteStretch::name).containsExactly("1", "2");
    assertThat(sites.get(0).startS()).isCloseTo(1, within(0.03));
    assertThat(sites.get(0).endS()).isCloseTo(14, within(0.15));
    assertThat(sites.get(1).startS()).isCloseTo(18, within(0.03));
  }

  @ParameterizedTest
  @ValueSource(longs = {1, 2, 3, 4})
  void aNeedleThatMovesDividesWithoutAPause(long seed) throws IOException {
    double[] samples = signal(seed, 20, new double[] {0, 20});
    for (int k = 0; k < 0.6 * RATE; k++) {
      samples[10 * RATE + k] += 3000 * Math.sin(2 * Math.PI * 3 * k / RATE);
    }
    List<SiteStretch> sites = sites(samples);
    assertThat(sites).hasSize(2);
    assertThat(sites.get(0).endS()).isBetween(9.7, 10.2);
    assertThat(sites.get(1).startS()).isBetween(10.3, 10.9);
  }

  @Test
  void aSteadyContractionIsOneSiteAndARestingMuscleNone() throws IOException {
    assertThat(sites(signal(5, 20, new double[] {0, 20}))).hasSize(1);
    assertThat(sites(signal(6, 20))).isEmpty();
    assertThat(sites(new double[100])).isEmpty();
  }
}
