package org.lonefibre.app.analyse;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.lonefibre.app.CommandRun;
import org.lonefibre.formats.RecordingReaders;
import org.lonefibre.formats.reader.ReadOptions;
import org.lonefibre.signal.recording.Channel;
import org.lonefibre.signal.recording.Recording;

/** Sweeps that were cut from a stimulated recording give what the whole recording gives. */
class CutSweepsTest {

  private static final int RATE_HZ = 50_000;
  private static final int BEFORE = 100;
  private static final int AFTER = 1500;

  @TempDir Path folder;

  private static double[] samples(Recording recording, String label) throws IOException {
    Channel channel =
        recording.channels().stream().filter(c -> c.label().equals(label)).findFirst().get();
    double[] samples = new double[Math.toIntExact(channel.sampleCount())];
    recording.read(channel, 0, samples, 0, samples.length);
    return samples;
  }

  /** Rows from two milliseconds before each stimulus on. */
  private Path cut(Path whole) throws IOException {
    List<String> rows = new ArrayList<>();
    try (Recording recording = RecordingReaders.open(whole, ReadOptions.defaults())) {
      double[] signal = samples(recording, "EMG");
      double[] marker = samples(recording, "Stimulus");
      double middle = 0.5 * java.util.Arrays.stream(marker).max().orElseThrow();
      for (int k = 1; k < marker.length; k++) {
        boolean rises = marker[k - 1] < middle && marker[k] >= middle;
        if (rises && k >= BEFORE && k + AFTER < signal.length) {
          StringBuilder row = new StringBuilder();
          row.append(String.format(Locale.ROOT, "%.5f", (k - BEFORE) / (double) RATE_HZ));
          for (int s = k - BEFORE; s < k + AFTER; s++) {
            row.append(',').append(signal[s]);
          }
          rows.add(row.toString());
        }
      }
    }
    return Files.write(folder.resolve("sweeps.csv"), rows);
  }

  private JsonNode analysed(Object... arguments) throws IOException {
    CommandRun run = CommandRun.of(arguments);
    assertThat(run.exitCode()).as(run.errors()).isZero();
    return new ObjectMapper().readTree(run.output()).at("/studies/0/recordings/0/stimulation");
  }

  private static JsonNode latest(JsonNode stimulation) {
    JsonNode endPlates = stimulation.path("endPlates");
    return endPlates.get(endPlates.size() - 1);
  }

  @Test
  void theJitterAndTheRateOfCutSweepsAreThoseOfTheWholeRecording() throws IOException {
    String[] words = {"--sites", "1", "--duration-s", "10", "--seed", "4"};
    List<Object> simulate = new ArrayList<>(List.of("simulate", "--out", folder.resolve("made")));
    simulate.addAll(List.of(words));
    simulate.addAll(List.of("--activation", "stimulated"));
    assertThat(CommandRun.of(simulate.toArray()).exitCode()).isZero();
    Path whole = folder.resolve("made").resolve("site01.edf");
    JsonNode all =
        analysed(
            "analyse",
            whole,
            "--channel",
            "EMG",
            "--stimulus-channel",
            "Stimulus",
            "--activation",
            "stimulated",
            "--json",
            "-");
    JsonNode sweeps =
        analysed(
            "analyse",
            cut(whole),
            "--sweep-rows",
            "--sampling-rate-hz",
            RATE_HZ,
            "--gain-uv-per-unit",
            1,
            "--activation",
            "stimulated",
            "--json",
            "-");
    double rateHz = all.path("meanRateHz").asDouble();
    assertThat(rateHz).isBetween(5.0, 20.0);
    assertThat(sweeps.path("meanRateHz").asDouble()).isCloseTo(rateHz, within(0.02 * rateHz));
    JsonNode expected = latest(all);
    JsonNode found = latest(sweeps);
    assertThat(expected.path("differences").asInt()).isGreaterThan(50);
    assertThat(found.path("differences").asInt())
        .isCloseTo(expected.path("differences").asInt(), within(4));
    double jitterUs = expected.path("jitterUs").asDouble();
    assertThat(found.path("jitterUs").asDouble()).isCloseTo(jitterUs, within(0.1 * jitterUs));
  }
}
