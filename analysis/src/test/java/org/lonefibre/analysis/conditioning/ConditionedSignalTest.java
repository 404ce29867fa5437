package org.lonefibre.analysis.conditioning;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.lonefibre.signal.filter.SecondOrderSections;
import org.lonefibre.signal.filter.ZeroPhase;
import org.lonefibre.signal.recording.Channel;
import org.lonefibre.signal.recording.Segment;

class ConditionedSignalTest {

  private static final double RATE_HZ = 50_000;

  private static final ConditioningSettings SINGLE_FIBRE = ConditioningSettings.singleFibre();

  private static double[] zeroPhase(ConditionedSignal signal) {
    double[] samples = new double[(int) (signal.endSample() - signal.firstSample())];
    signal.read(signal.firstSample(), samples, 0, samples.length);
    return samples;
  }

  private static double[] causal(ConditionedSignal signal) {
    double[] samples = new double[(int) (signal.endSample() - signal.firstSample())];
    signal.readCausal(signal.firstSample(), samples, 0, samples.length);
    return samples;
  }

  private static ConditionedSignal condition(Site site) throws IOException {
    MemoryRecording recording = site.recording();
    return new Conditioner(SINGLE_FIBRE).condition(recording, recording.channel());
  }

  private static void assertClose(double[] actual, double[] expected, double tolerance) {
    double difference = 0;
    assertThat(actual).hasSameSizeAs(expected);
    for (int i = 0; i < actual.length; i++) {
      difference = Math.max(difference, Math.abs(actual[i] - expected[i]));
    }
    assertThat(difference).isLessThan(tolerance);
  }

  @Test
  @Tag("property")
  void blocksOfAnySizeGiveTheSignalOfTheWhole() throws IOException {
    Site site = new Site(RATE_HZ, 1.7, 4).noise(20).unit(12, 3, 2000).offset(700);
    MemoryRecording recording = site.recording();
    double[] whole =
        new ZeroPhase(
                SecondOrderSections.highPass(2, 500, RATE_HZ)
                    .then(SecondOrderSections.lowPass(2, 10_000, RATE_HZ)))
            .filter(site.samples);
    for (int block : new int[] {1024, 5000, 1 << 17}) {
      for (int megabytes : new int[] {1, 64}) {
        ConditionedSignal signal =
            new Conditioner(SINGLE_FIBRE, new BlockMemory(block, megabytes))
                .condition(recording, recording.channel());
        assertClose(zeroPhase(signal), whole, 1e-9 * 2000);
      }
    }
  }

  @Test
  @Tag("property")
  void readingPieceByPieceInAnyOrderGivesTheSameSamples() throws IOException {
    Site site = new Site(RATE_HZ, 3, 5).noise(20).unit(12, 2, 1000);
    MemoryRecording recording = site.recording();
    ConditionedSignal signal =
        new Conditioner(SINGLE_FIBRE, new BlockMemory(2048, 1))
            .condition(recording, recording.channel());
    double[] whole = zeroPhase(signal);
    double[] wholeCausal = causal(signal);
    double[] piece = new double[5000];
    for (int first : new int[] {140_000, 17, 60_001, 0, 145_000}) {
      signal.read(first, piece, 300, 4321);
      assertThat(Arrays.copyOfRange(piece, 300, 4621))
          .isEqualTo(Arrays.copyOfRange(whole, first, first + 4321));
      signal.readCausal(first, piece, 0, 4321);
      assertThat(Arrays.copyOf(piece, 4321))
          .isEqualTo(Arrays.copyOfRange(wholeCausal, first, first + 4321));
    }
  }

  @Test
  @Tag("property")
  void gainAndPolarityGoThroughUnchanged() throws IOException {
    Site site = new Site(RATE_HZ, 2, 6).noise(15).unit(10, 2, 800);
    Site scaled = new Site(RATE_HZ, 2, 6);
    for (int i = 0; i < site.samples.length; i++) {
      scaled.samples[i] = -3.7 * site.samples[i];
    }
    ConditionedSignal one = condition(site);
    ConditionedSignal other = condition(scaled);
    double[] expected = zeroPhase(one);
    for (int i = 0; i < expected.length; i++) {
      expected[i] *= -3.7;
    }
    assertClose(zeroPhase(other), expected, 1e-8);
    assertThat(other.noiseUv()).isCloseTo(3.7 * one.noiseUv(), within(1e-6));
  }

  @Test
  @Tag("property")
  void aShiftInTimeShiftsTheResultAndNothingElse() throws IOException {
    Site site = new Site(RATE_HZ, 2, 7).noise(15).unit(10, 2, 800);
    int shift = 317;
    Site later = new Site(RATE_HZ, 2, 7);
    System.arraycopy(site.samples, 0, later.samples, shift, site.samples.length - shift);
    double[] one = zeroPhase(condition(site));
    double[] other = zeroPhase(condition(later));
    int settled = 4000;
    assertClose(
        Arrays.copyOfRange(other, shift + settled, other.length - settled),
        Arrays.copyOfRange(one, settled, one.length - settled - shift),
        1e-6);
  }

  @Test
  @Tag("analytic")
  void theFilterMovesNoInterval() throws IOException {
    // Two like potentials whose centres lie 1,234.5 samples apart, without noise: the distance of
    // the parabolic peaks after filtering is that before.
    Site site = new Site(RATE_HZ, 0.2, 1);
    site.potential(0.05, 1000);
    site.potential(0.05 + 1234.5 / RATE_HZ, 1000);
    double[] out = zeroPhase(condition(site));
    double first = centroid(out, 2500);
    double second = centroid(out, 3734);
    assertThat((second - first) * 1e6 / RATE_HZ).isCloseTo(1234.5 * 20, within(0.05));
  }

  /** Centre of the squared signal around a place: exact for any shape sampled finely enough. */
  private static double centroid(double[] x, int around) {
    double weight = 0;
    double sum = 0;
    for (int i = around - 200; i <= around + 200; i++) {
      weight += x[i] * x[i];
      sum += i * x[i] * x[i];
    }
    return sum / weight;
  }

  @Test
  @Tag("contract")
  void aReadAcrossAGapIsRefusedAndSegmentsAreFilteredApart() throws IOException {
    Site site = new Site(RATE_HZ, 1, 8).noise(10);
    double[] samples = site.samples;
    for (int i = 20_000; i < samples.length; i++) {
      samples[i] += 5000;
    }
    Channel whole = MemoryRecording.of(samples, RATE_HZ).channel();
    Channel channel =
        new Channel(
            1,
            whole.label(),
            whole.unit(),
            whole.calibration(),
            whole.timeBase(),
            whole.sampleCount(),
            List.of(new Segment(0, 20_000, 0), new Segment(20_000, 30_000, 9)),
            null,
            null,
            null,
            "");
    MemoryRecording recording = new MemoryRecording(channel, samples);
    ConditionedSignal signal =
        new Conditioner(SINGLE_FIBRE).condition(recording, channel, 500, 49_000);
    assertThat(signal.segments())
        .containsExactly(new Segment(500, 19_500, 0.01), new Segment(20_000, 29_000, 9));
    double[] piece = new double[100];
    assertThatIllegalArgumentException()
        .isThrownBy(() -> signal.read(19_950, piece, 0, 100))
        .withMessageContaining("19950 to 20050");
    assertThatIllegalArgumentException().isThrownBy(() -> signal.readCausal(450, piece, 0, 100));
    assertThatIllegalArgumentException().isThrownBy(() -> signal.readRaw(48_950, piece, 0, 100));
    signal.read(20_000, piece, 0, 100);
    for (double value : piece) {
      assertThat(Math.abs(value)).isLessThan(60);
    }
    signal.readRaw(20_000, piece, 0, 100);
    assertThat(piece).isEqualTo(Arrays.copyOfRange(samples, 20_000, 20_100));
  }
}
