package org.lonefibre.app.chain;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.function.UnaryOperator;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.lonefibre.app.CommandRun;
import org.lonefibre.app.recording.RecordingDoor;
import org.lonefibre.signal.filter.SecondOrderSections;
import org.lonefibre.signal.filter.ZeroPhase;
import org.lonefibre.signal.interpolation.FractionalDelay;
import org.lonefibre.signal.recording.Channel;
import org.lonefibre.signal.recording.Recording;

/** The test signal as EDF+, through exports that harm it in a known way, by the command alone. */
@Tag("endToEnd")
class DegradedExportTest {

  private static final double RATE_HZ = 50_000;

  @TempDir Path folder;

  @Test
  void theSignalAsItWasWrittenLosesNothing() throws IOException {
    JsonNode result = tested(written());
    assertThat(result.path("steps")).isEmpty();
    assertThat(result.path("trueRateHz").asDouble()).isEqualTo(RATE_HZ, within());
    assertThat(result.path("pulseUv").asDouble())
        .isCloseTo(1000, org.assertj.core.api.Assertions.within(1.0));
    assertThat(result.path("smallestJitterUs").asDouble()).isLessThan(0.05);
  }

  @Test
  void aResampledExportIsNamed() throws IOException {
    // Down to 10 kHz and up again by a windowed sinc: nothing is left above 5 kHz.
    JsonNode result =
        tested(
            changed(
                samples -> {
                  double[] low =
                      new ZeroPhase(SecondOrderSections.lowPass(8, 4300, RATE_HZ)).filter(samples);
                  double[] few = new double[low.length / 5];
                  for (int i = 0; i < few.length; i++) {
                    few[i] = low[5 * i];
                  }
                  return read(few, low.length);
                }));
    assertThat(result.path("steps").findValuesAsText("kind")).contains("resampled");
  }

  @Test
  void aRequantisedExportIsNamed() throws IOException {
    JsonNode result =
        tested(
            changed(
                samples -> {
                  double[] coarse = new double[samples.length];
                  for (int i = 0; i < coarse.length; i++) {
                    coarse[i] = 8 * Math.rint(samples[i] / 8);
                  }
                  return coarse;
                }));
    assertThat(result.path("steps").findValuesAsText("kind")).contains("coarse-steps");
    // Rounding to 8 uV is a noise of 2.3 uV: 0.067 us by the bound of ChainTestTest.
    assertThat(result.path("smallestJitterUs").asDouble()).isBetween(0.04, 0.1);
  }

  @Test
  void aFilteredExportIsNamedWithItsCorner() throws IOException {
    JsonNode result =
        tested(
            changed(
                samples ->
                    new ZeroPhase(SecondOrderSections.highPass(2, 500, RATE_HZ)).filter(samples)));
    assertThat(result.path("steps").findValuesAsText("kind")).containsExactly("filtered-twice");
    // An order 2 loses 3 dB at its corner in one pass and 6 dB in two: 3 dB at 1.2466 times it.
    assertThat(result.path("highPassHz").asDouble())
        .isCloseTo(623, org.assertj.core.api.Assertions.within(20.0));
  }

  private static org.assertj.core.data.Offset<Double> within() {
    return org.assertj.core.api.Assertions.within(0.05);
  }

  private Path written() {
    Path signal = folder.resolve("signal.edf");
    CommandRun run = CommandRun.of("chain", "--write", signal);
    assertThat(run.exitCode()).as(run.errors()).isZero();
    assertThat(run.output()).contains("50000 Hz");
    return signal;
  }

  private JsonNode tested(Path export) throws IOException {
    Path kept = folder.resolve("chain.json");
    CommandRun run = CommandRun.of("chain", export, "--out", kept);
    assertThat(run.exitCode()).as(run.errors()).isZero();
    return new ObjectMapper().readTree(kept.toFile()).path("result");
  }

  /** The written signal, changed, as a column of microvolts to three decimals turned into EDF+. */
  private Path changed(UnaryOperator<double[]> change) throws IOException {
    double[] samples;
    try (Recording recording = RecordingDoor.plain().open(written())) {
      Channel channel = recording.channels().get(0);
      samples = new double[Math.toIntExact(channel.sampleCount())];
      recording.read(channel, 0, samples, 0, samples.length);
    }
    StringBuilder text = new StringBuilder("time_s,EMG_uV\n");
    double[] now = change.apply(samples);
    for (int i = 0; i < now.length; i++) {
      text.append(String.format(Locale.ROOT, "%.5f,%.3f%n", i / RATE_HZ, now[i]));
    }
    Path table = Files.writeString(folder.resolve("export.csv"), text);
    Path export = folder.resolve("export.edf");
    CommandRun run = CommandRun.of("copy", table, "--out", export);
    assertThat(run.exitCode()).as(run.errors()).isZero();
    return export;
  }

  private static double[] read(double[] few, int length) {
    FractionalDelay reading = new FractionalDelay();
    double[] one = new double[1];
    double[] out = new double[length];
    for (int i = 0; i < length; i++) {
      reading.read(few, i / 5.0, one, 1);
      out[i] = one[0];
    }
    return out;
  }
}
