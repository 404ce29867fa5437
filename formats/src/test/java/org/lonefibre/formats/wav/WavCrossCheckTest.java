package org.lonefibre.formats.wav;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import de.siegmar.fastcsv.reader.CommentStrategy;
import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.NamedCsvRecord;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.api.io.TempDir;
import org.lonefibre.formats.RecordingReaders;
import org.lonefibre.formats.SharedFolder;
import org.lonefibre.formats.reader.ReadOptions;
import org.lonefibre.signal.recording.Channel;
import org.lonefibre.signal.recording.Recording;

/**
 * Files of SciPy against the samples that SciPy reads ({@code python3 make_wav_table.py
 * ../shared/data/wav > wav_samples.csv}), and files that SciPy writes against what was put into
 * them ({@code python3 make_wav_files.py > wav_files.csv}); SciPy 1.10.1.
 */
@Tag("crossCheck")
class WavCrossCheckTest {

  @TempDir Path folder;

  private static Map<String, List<NamedCsvRecord>> table(String name, String key)
      throws IOException {
    try (InputStream in =
            Objects.requireNonNull(WavCrossCheckTest.class.getResourceAsStream(name));
        CsvReader<NamedCsvRecord> rows =
            CsvReader.builder()
                .commentStrategy(CommentStrategy.SKIP)
                .ofNamedCsvRecord(new InputStreamReader(in, StandardCharsets.UTF_8))) {
      return rows.stream().collect(Collectors.groupingBy(row -> row.getField(key)));
    }
  }

  @TestFactory
  Stream<DynamicTest> everySampleOfTheTableAgrees() throws IOException {
    Map<String, List<NamedCsvRecord>> table = table("wav_samples.csv", "file");
    assertThat(table).hasSizeGreaterThanOrEqualTo(15);
    return table.entrySet().stream()
        .map(entry -> DynamicTest.dynamicTest(entry.getKey(), () -> compare(entry.getValue())));
  }

  private static void compare(List<NamedCsvRecord> rows) throws IOException {
    NamedCsvRecord any = rows.get(0);
    try (Recording recording =
        RecordingReaders.open(
            SharedFolder.data().resolve("wav").resolve(any.getField("file")),
            ReadOptions.defaults())) {
      assertThat(recording.channels()).hasSize(Integer.parseInt(any.getField("channels")));
      for (NamedCsvRecord row : rows) {
        Channel channel = recording.channels().get(Integer.parseInt(row.getField("channel")) - 1);
        assertThat(channel.timeBase().samplingRateHz())
            .isEqualTo(Double.parseDouble(row.getField("rateHz")));
        assertThat(channel.sampleCount()).isEqualTo(Long.parseLong(row.getField("frames")));
        double expected =
            Double.parseDouble(row.getField("value"))
                    / Math.pow(2, Integer.parseInt(row.getField("shiftBits")))
                - (row.getField("unsigned").equals("1") ? 128 : 0);
        double[] one = new double[1];
        recording.read(channel, Long.parseLong(row.getField("frame")), one, 0, 1);
        assertThat(one[0]).isCloseTo(expected, within(1e-15 * Math.abs(expected)));
      }
    }
  }

  @Test
  void everySampleThatSciPyWroteIsRead() throws IOException {
    Map<String, List<NamedCsvRecord>> table = table("wav_files.csv", "type");
    assertThat(table).hasSize(9);
    for (List<NamedCsvRecord> rows : table.values()) {
      for (NamedCsvRecord row : rows) {
        written(row);
      }
    }
  }

  private void written(NamedCsvRecord row) throws IOException {
    byte[] bytes = HexFormat.of().parseHex(row.getField("bytes"));
    Path file = Files.write(folder.resolve("written"), bytes);
    int channels = Integer.parseInt(row.getField("channels"));
    String[] samples = row.getField("samples").split(" ");
    double middle = row.getField("type").equals("u1") ? 128 : 0;
    try (Recording recording = RecordingReaders.open(file, ReadOptions.defaults())) {
      assertThat(recording.channels()).hasSize(channels);
      for (int k = 0; k < samples.length; k++) {
        Channel channel = recording.channels().get(k % channels);
        assertThat(channel.timeBase().samplingRateHz())
            .isEqualTo(Double.parseDouble(row.getField("rateHz")));
        double[] one = new double[1];
        recording.read(channel, k / channels, one, 0, 1);
        assertThat(one[0])
            .as(row.getField("type"))
            .isEqualTo(Double.parseDouble(samples[k]) - middle);
      }
    }
  }
}
