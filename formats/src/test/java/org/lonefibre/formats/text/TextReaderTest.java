package org.lonefibre.formats.text;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.lonefibre.formats.RecordingReaders;
import org.lonefibre.formats.reader.ReadOptions;
import org.lonefibre.signal.recording.Channel;
import org.lonefibre.signal.recording.Channel.Calibration;
import org.lonefibre.signal.recording.Recording;
import org.lonefibre.signal.recording.RecordingFormatException;
import org.lonefibre.signal.recording.TimeBase;

@Tag("contract")
class TextReaderTest {

  private static final Path DATA = Path.of("..", "..", "shared", "data");

  @TempDir Path folder;

  private Path text(String content) throws IOException {
    Path file = folder.resolve("a.txt");
    Files.writeString(file, content);
    return file;
  }

  @Test
  void decimalCommaWithSemicolonAndTimeColumnInMilliseconds() throws IOException {
    StringBuilder lines = new StringBuilder("time (ms);EMG (mV)\n");
    for (int i = 0; i < 200; i++) {
      lines.append(
          String.format(java.util.Locale.ROOT, "%.2f;%.3f\n", i * 0.02, i * 0.001)
              .replace('.', ','));
    }
    try (Recording read = RecordingReaders.open(text(lines.toString()), ReadOptions.defaults())) {
      Channel channel = read.channels().get(0);
      assertThat(channel.timeBase()).isEqualTo(TimeBase.ofHz(50_000));
      assertThat(channel.calibration()).isEqualTo(Calibration.MICROVOLT);
      double[] one = new double[1];
      read.read(channel, 7, one, 0, 1);
      assertThat(one[0]).isCloseTo(7, org.assertj.core.data.Offset.offset(1e-9));
    }
  }

  @Test
  void noTimeColumnAsksForTheRate() throws IOException {
    Path file = text("1\n2\n3\n4\n");
    assertThatThrownBy(() -> RecordingReaders.open(file, ReadOptions.defaults()))
        .isInstanceOf(RecordingFormatException.class)
        .hasMessageContaining("--sampling-rate-hz");
    try (Recording read =
        RecordingReaders.open(file, ReadOptions.defaults().withSamplingRateHz(20_000))) {
      assertThat(read.channels().get(0).calibration()).isEqualTo(Calibration.NONE);
    }
  }

  @Test
  void row24BrokenLineIsNamedByItsNumber() throws IOException {
    Path file = text("0.000 1\n0.001 2\n0.002 x3\n0.003 4\n");
    assertThatThrownBy(() -> RecordingReaders.open(file, ReadOptions.defaults()))
        .isInstanceOf(RecordingFormatException.class)
        .hasMessageContaining("line 3");
  }

  @Test
  void aJumpInTimeIsAGap() throws IOException {
    StringBuilder lines = new StringBuilder();
    for (int i = 0; i < 100; i++) {
      double time = i * 0.0001 + (i >= 50 ? 0.5 : 0);
      lines.append(String.format(java.util.Locale.ROOT, "%.4f\t%d\n", time, i));
    }
    try (Recording read = RecordingReaders.open(text(lines.toString()), ReadOptions.defaults())) {
      assertThat(read.channels().get(0).segments()).hasSize(2);
    }
  }

  @Test
  void realNeedleTextIsReadOrRefusedByLine() throws IOException {
    assumeTrue(Files.isDirectory(DATA), "../shared/data is absent: needle texts are not read");
    Path folder = DATA.resolve("needle-emg-4khz");
    try (Recording read =
        RecordingReaders.open(folder.resolve("emg_healthy.txt"), ReadOptions.defaults())) {
      assertThat(read.channels().get(0).sampleCount()).isEqualTo(50_860);
      assertThat(read.channels().get(0).timeBase()).isEqualTo(TimeBase.ofHz(4_000));
    }
    assertThatThrownBy(
            () ->
                RecordingReaders.open(
                    folder.resolve("emg_healthy_corrupt.txt"), ReadOptions.defaults()))
        .isInstanceOf(RecordingFormatException.class)
        .hasMessageContaining("line ");
  }
}
