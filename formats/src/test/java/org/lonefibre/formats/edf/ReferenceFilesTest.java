package org.lonefibre.formats.edf;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.NamedCsvRecord;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.lonefibre.formats.RecordingReaders;
import org.lonefibre.formats.reader.ReadOptions;
import org.lonefibre.signal.recording.Channel;
import org.lonefibre.signal.recording.Recording;
import org.lonefibre.signal.recording.RecordingFormatException;

/** Files of others against an independent reader's figures (reference/edf_channels.csv). */
@Tag("crossCheck")
class ReferenceFilesTest {

  private static final Path DATA = Path.of("..", "..", "shared", "data");

  @Test
  void everyChannelAgreesWithTheIndependentReader() throws IOException {
    assumeTrue(Files.isDirectory(DATA), "../shared/data is absent: reference files are not read");
    List<String> wrong = new ArrayList<>();
    int compared = 0;
    try (CsvReader<NamedCsvRecord> rows =
        CsvReader.builder().ofNamedCsvRecord(DATA.resolve("reference/edf_channels.csv"))) {
      for (NamedCsvRecord row : rows) {
        String difference = difference(row);
        compared++;
        if (!difference.isEmpty()) {
          wrong.add(row.getField("file") + " " + row.getField("ch") + ": " + difference);
        }
      }
    }
    assertThat(compared).isGreaterThan(100);
    assertThat(wrong).isEmpty();
  }

  private static String difference(NamedCsvRecord row) throws IOException {
    Path file = DATA.resolve(row.getField("file"));
    if (!Files.exists(file)) {
      return "";
    }
    try (Recording read = RecordingReaders.open(file, ReadOptions.defaults())) {
      int number = Integer.parseInt(row.getField("ch")) + 1;
      Channel channel =
          read.channels().stream().filter(c -> c.number() == number).findFirst().orElse(null);
      if (channel == null) {
        return "";
      }
      double rate = Double.parseDouble(row.getField("fs"));
      if (Math.abs(channel.timeBase().samplingRateHz() - rate) > 1e-6 * rate) {
        return "rate " + channel.timeBase().samplingRateHz();
      }
      long length = Long.parseLong(row.getField("n"));
      if (channel.sampleCount() != length) {
        return "length " + channel.sampleCount();
      }
      Double step = channel.resolutionUv();
      Double low = channel.lowRailUv();
      if (step == null || low == null || length > 5_000_000) {
        return "";
      }
      double[] values = new double[(int) length];
      read.read(channel, 0, values, 0, values.length);
      double physicalRange =
          Double.parseDouble(row.getField("pmax")) - Double.parseDouble(row.getField("pmin"));
      boolean inverted = physicalRange < 0;
      double base = inverted ? low + step * range(row) : low;
      long sum = 0;
      for (double value : values) {
        sum +=
            Math.round((inverted ? base - value : value - base) / step)
                + Math.round(Double.parseDouble(row.getField("dmin")));
      }
      long expected = Math.round(Double.parseDouble(row.getField("dig_sum")));
      return sum == expected ? "" : "digital sum " + sum + " for " + expected;
    }
  }

  private static double range(NamedCsvRecord row) {
    return Double.parseDouble(row.getField("dmax")) - Double.parseDouble(row.getField("dmin"));
  }

  @Test
  void malformedFilesAreRefusedByNameAndPlace() throws IOException {
    assumeTrue(Files.isDirectory(DATA), "../shared/data is absent: malformed files are not read");
    for (String name :
        List.of("bids-sub-01_task-pullstand_emg.edf", "bids-sub-01_task-pullstand_eeg.edf")) {
      Path file = DATA.resolve("edf").resolve(name);
      try (Recording read = RecordingReaders.open(file, ReadOptions.defaults())) {
        assertThat(read.findings()).as(name).isNotEmpty();
      } catch (RecordingFormatException e) {
        assertThat(e.getMessage()).contains(name).contains("byte ");
      }
    }
  }
}
