package org.lonefibre.formats.text;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.lonefibre.formats.RecordingReaders;
import org.lonefibre.formats.reader.ReadOptions;
import org.lonefibre.formats.reader.SiteCutter;
import org.lonefibre.signal.recording.Channel;
import org.lonefibre.signal.recording.Recording;

/** Text that is no table of samples: one long line, sweeps, lists of intervals. */
class OddTextTest {

  private static final ReadOptions RATE = new ReadOptions(20_000.0, null);

  @TempDir Path folder;

  private static double value(int k) {
    return (k * 37 % 2001 - 1000) * 0.01;
  }

  private Path line(String format, int count, String end) throws IOException {
    StringBuilder text = new StringBuilder();
    for (int k = 0; k < count; k++) {
      text.append(String.format(Locale.ROOT, format, value(k)));
    }
    return Files.writeString(folder.resolve("line.txt"), text + end);
  }

  @ParameterizedTest
  @CsvSource({
    "'%8.2f',1000,''",
    "'%8.2f',30000,'\n'",
    "'%6.2f',30000,''",
    "'%+.3e',70,'\r\n'",
    "'%.2f ',30000,''",
    "'%10.2f',64,'\n'"
  })
  void row24OneLineOfNumbersOfOneWidthIsRead(String format, int count, String end)
      throws IOException {
    try (Recording recording = RecordingReaders.open(line(format, count, end), RATE)) {
      Channel channel = recording.channels().get(0);
      assertThat(channel.sampleCount()).isEqualTo(count);
      double[] samples = new double[count];
      recording.read(channel, 0, samples, 0, count);
      for (int k = 0; k < count; k++) {
        assertThat(samples[k]).isCloseTo(value(k), within(0.006));
      }
    }
  }

  @Test
  void row24ABrokenNumberInOneLineIsNamedByItsPlace() throws IOException {
    Path file = line("%8.2f", 20_000, "");
    String text = Files.readString(file);
    Files.writeString(file, text.substring(0, 120_000) + "   oops!" + text.substring(120_008));
    assertThatThrownBy(() -> RecordingReaders.open(file, RATE))
        .hasMessageContaining("before character 12001")
        .hasMessageContaining("oops!");
  }

  @Test
  void wholeNumbersWithoutSpaceHaveNoOneWidth() throws IOException {
    Path file = Files.writeString(folder.resolve("w.txt"), "1234".repeat(500));
    assertThatThrownBy(() -> RecordingReaders.open(file, RATE).close())
        .isInstanceOf(IOException.class);
  }

  @Test
  void aShortLineIsARowOfATable() throws IOException {
    Path file = Files.writeString(folder.resolve("s.txt"), "1.5 2.5 3.5\n");
    try (Recording recording = RecordingReaders.open(file, RATE)) {
      assertThat(recording.channels()).hasSize(3);
    }
  }

  @Test
  void aSweepARowBecomesAStretchWithItsTrigger() throws IOException {
    StringBuilder rows = new StringBuilder("time;samples\n");
    for (int s = 0; s < 5; s++) {
      rows.append(String.format(Locale.ROOT, "%.4f", 10 + 0.1 * s));
      for (int k = 0; k < 200; k++) {
        rows.append(";").append(1000 * s + k);
      }
      rows.append("\n");
    }
    Path file = Files.writeString(folder.resolve("sweeps.csv"), rows.substring(13));
    try (Recording recording =
        RecordingReaders.open(file, RATE.withRows(ReadOptions.Rows.SWEEPS))) {
      Channel channel = recording.channels().get(0);
      assertThat(channel.segments()).hasSize(5);
      assertThat(channel.segments().get(3).startS()).isCloseTo(0.3, within(1e-9));
      assertThat(SiteCutter.listStimuliS(recording.annotations())).hasSize(5);
      double[] samples = new double[200];
      recording.read(channel, 600, samples, 0, 200);
      assertThat(samples[0]).isEqualTo(3000);
      assertThat(samples[199]).isEqualTo(3199);
    }
  }

  @Test
  void sweepsThatOverlapAreRefusedWithTheirLine() throws IOException {
    Path file = Files.writeString(folder.resolve("o.csv"), "0.0 1 2 3 4 5\n0.0001 1 2 3 4 5\n");
    assertThatThrownBy(() -> RecordingReaders.open(file, RATE.withRows(ReadOptions.Rows.SWEEPS)))
        .hasMessageContaining("line 2, column 1")
        .hasMessageContaining("after the end of the sweep before");
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "interval\n612.5\n598,\n-\n640\n",
        "# made up\n612.5\n598\nblock\n640",
        "time,interval\n0.1,612.5\n0.2,598\n0.31,-\n0.4,640\n",
        "0,1\t612,5\n0,2\t598\n0,31\tblocked\n0,4\t640,0\n"
      })
  void intervalsAreListedWithTheirBlocks(String text) throws IOException {
    IntervalList list =
        IntervalList.read(Files.writeString(folder.resolve("i.txt"), text), IntervalList.Unit.US);
    assertThat(list.entries())
        .extracting(IntervalList.Entry::intervalUs)
        .containsExactly(612.5, 598.0, null, 640.0);
  }

  @ParameterizedTest
  @CsvSource({
    "'612\n12,345\n',line 2",
    "'612\nsix\n',line 2",
    "'0.1 600\n0.05 601\n',line 2",
    "'0.1 600\n601\n',line 2",
    "'1 2 3\n',line 1",
    "'2e9\n',line 1",
    "'',line 1"
  })
  void whatIsNoIntervalIsNamedByItsLine(String text, String place) throws IOException {
    Path file = Files.writeString(folder.resolve("x.txt"), text);
    assertThatThrownBy(() -> IntervalList.read(file, IntervalList.Unit.MS))
        .hasMessageStartingWith("x.txt: " + place);
  }
}
