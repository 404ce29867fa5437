package org.lonefibre.formats.edf;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.NamedCsvRecord;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Objects;
import java.util.OptionalDouble;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.lonefibre.formats.RecordingReaders;
import org.lonefibre.formats.SharedFolder;
import org.lonefibre.formats.reader.AmplitudeUnit;
import org.lonefibre.formats.reader.ReadOptions;
import org.lonefibre.signal.recording.Annotation;
import org.lonefibre.signal.recording.Channel;
import org.lonefibre.signal.recording.Recording;
import org.lonefibre.signal.recording.RecordingFormatException;

/**
 * Files made by others against a table made by an independent reader (its rows number signals from
 * 0, annotation signals included, and give values in the unit of the file).
 */
@Tag("crossCheck")
class EdfCrossCheckTest {

  private static List<NamedCsvRecord> table() throws IOException {
    Path table = SharedFolder.data().resolve("reference/edf_channels.csv");
    try (CsvReader<NamedCsvRecord> rows = CsvReader.builder().ofNamedCsvRecord(table)) {
      return rows.stream().toList();
    }
  }

  @TestFactory
  Stream<DynamicTest> everyChannelAgreesWithTheIndependentReader() throws IOException {
    return table().stream()
        .map(
            row ->
                DynamicTest.dynamicTest(
                    row.getField("file") + " channel " + row.getField("ch"), () -> compare(row)));
  }

  private static double number(NamedCsvRecord row, String field) {
    return Double.parseDouble(row.getField(field));
  }

  private static void compare(NamedCsvRecord row) throws IOException {
    Path file = SharedFolder.data().resolve(row.getField("file"));
    String label = row.getField("label");
    try (Recording recording = RecordingReaders.open(file, ReadOptions.defaults())) {
      int number = Integer.parseInt(row.getField("ch")) + 1;
      if (label.endsWith(" Annotations")) {
        assertThat(recording.channels()).extracting(Channel::number).doesNotContain(number);
        return;
      }
      Channel channel =
          recording.channels().stream().filter(c -> c.number() == number).findFirst().orElseThrow();
      assertThat(channel.label()).isEqualTo(label.strip());
      assertThat(channel.unit()).isEqualTo(row.getField("dim").strip());
      double rate = number(row, "fs");
      assertThat(channel.timeBase().samplingRateHz()).isCloseTo(rate, within(1e-9 * rate));
      assertThat(channel.sampleCount()).isEqualTo(Long.parseLong(row.getField("n")));
      OptionalDouble unit = AmplitudeUnit.microvolts(channel.unit());
      double factor = unit.orElse(1);
      double low = number(row, "pmin");
      double high = number(row, "pmax");
      double digitalLow = number(row, "dmin");
      double digitalHigh = number(row, "dmax");
      double range = Math.abs(high - low) * factor;
      assertThat(channel.lowRailUv()).isCloseTo(Math.min(low, high) * factor, within(1e-5 * range));
      assertThat(channel.highRailUv())
          .isCloseTo(Math.max(low, high) * factor, within(1e-5 * range));
      double[] samples = new double[Math.toIntExact(channel.sampleCount())];
      recording.read(channel, 0, samples, 0, samples.length);
      // The table prints ranges with few digits; the numbers stored are found with the channel's.
      double lowest = Objects.requireNonNull(channel.lowRailUv());
      double highest = Objects.requireNonNull(channel.highRailUv());
      double railLow = high < low ? highest : lowest;
      double gain = (high < low ? -1 : 1) * (highest - lowest) / (digitalHigh - digitalLow);
      long sum = 0;
      long least = Long.MAX_VALUE;
      long most = Long.MIN_VALUE;
      double total = 0;
      double smallest = Double.POSITIVE_INFINITY;
      double largest = Double.NEGATIVE_INFINITY;
      for (double sample : samples) {
        double exact = (sample - railLow) / gain + digitalLow;
        long stored = Math.round(exact);
        assertThat(exact).isCloseTo(stored, within(1e-5));
        sum += stored;
        least = Math.min(least, stored);
        most = Math.max(most, stored);
        total += sample;
        smallest = Math.min(smallest, sample);
        largest = Math.max(largest, sample);
      }
      assertThat(sum).isEqualTo(Long.parseLong(row.getField("dig_sum")));
      assertThat(least).isEqualTo(Long.parseLong(row.getField("dig_min")));
      assertThat(most).isEqualTo(Long.parseLong(row.getField("dig_max")));
      // Values are printed with six digits.
      double print = 1e-5 * Math.max(Math.abs(smallest), Math.abs(largest));
      // Its least and greatest value belong to the least and greatest number stored.
      if (gain < 0) {
        double swapped = smallest;
        smallest = largest;
        largest = swapped;
      }
      assertThat(smallest)
          .isCloseTo(number(row, "phys_min") * factor, within(2e-5 * range + print));
      assertThat(largest).isCloseTo(number(row, "phys_max") * factor, within(2e-5 * range + print));
      assertThat(total / samples.length)
          .isCloseTo(number(row, "phys_mean") * factor, within(2e-5 * range + print));
    }
  }

  @ParameterizedTest
  @ValueSource(
      strings = {"bids-sub-01_task-pullstand_eeg.edf", "bids-sub-01_task-pullstand_emg.edf"})
  void aMalformedFileIsRefusedByNameAndPlace(String name) {
    Path file = SharedFolder.data().resolve("edf").resolve(name);
    assertThatThrownBy(() -> RecordingReaders.open(file, ReadOptions.defaults()))
        .isInstanceOf(RecordingFormatException.class)
        .hasMessageContaining(name + ": byte 252, number of signals: expected a whole number");
  }

  @Test
  void everyFileIsInTheTableOrRefused() throws IOException {
    List<String> known = table().stream().map(row -> row.getField("file")).distinct().toList();
    try (Stream<Path> files = Files.list(SharedFolder.data().resolve("edf"))) {
      assertThat(files.map(file -> "edf/" + file.getFileName()))
          .filteredOn(name -> name.endsWith("df") && !name.contains("pullstand"))
          .containsExactlyInAnyOrderElementsOf(known);
    }
  }

  @Test
  void annotationsInUtf8AreRead() throws IOException {
    Path file = SharedFolder.data().resolve("edf/pyedflib-test_utf8.edf");
    try (Recording recording = RecordingReaders.open(file, ReadOptions.defaults())) {
      assertThat(recording.annotations())
          .extracting(Annotation::text)
          .anyMatch(text -> text.chars().anyMatch(c -> c > 127));
      assertThat(recording.annotations())
          .extracting(Annotation::text)
          .noneMatch(text -> text.contains("\uFFFD"));
    }
  }
}
