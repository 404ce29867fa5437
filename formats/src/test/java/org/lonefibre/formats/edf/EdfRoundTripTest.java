package org.lonefibre.formats.edf;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDateTime;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.lonefibre.formats.RecordingReaders;
import org.lonefibre.formats.SyntheticRecording;
import org.lonefibre.formats.reader.ReadOptions;
import org.lonefibre.formats.writer.EdfPlusWriter;
import org.lonefibre.signal.recording.Annotation;
import org.lonefibre.signal.recording.Channel;
import org.lonefibre.signal.recording.Channel.Calibration;
import org.lonefibre.signal.recording.Finding;
import org.lonefibre.signal.recording.FindingCode;
import org.lonefibre.signal.recording.Recording;
import org.lonefibre.signal.recording.RecordingFormatException;
import org.lonefibre.signal.recording.TimeBase;

@Tag("contract")
class EdfRoundTripTest {

  @TempDir Path folder;

  private Path written(TimeBase timeBase, long samples, List<Annotation> annotations)
      throws IOException {
    Path file = folder.resolve("a.edf");
    EdfPlusWriter.write(
        new SyntheticRecording(timeBase, samples, annotations),
        "T-1",
        LocalDateTime.of(2026, 1, 2, 3, 4, 5),
        file);
    return file;
  }

  @ParameterizedTest
  @CsvSource({"50000,1", "390625,8", "46875,2", "20000,1", "100000,1"})
  void whatIsWrittenIsReadToTheBitAtTheExactRate(long samples, long seconds) throws IOException {
    TimeBase timeBase = new TimeBase(samples, seconds);
    Path file = written(timeBase, 50_000, List.of());
    try (Recording read = RecordingReaders.open(file, ReadOptions.defaults())) {
      Channel channel = read.channels().get(0);
      assertThat(read.format()).isEqualTo("EDF+C");
      assertThat(channel.timeBase()).isEqualTo(timeBase);
      assertThat(channel.prefilter()).isEqualTo("HP:500Hz LP:10000Hz");
      double[] values = new double[50_000];
      read.read(channel, 0, values, 0, values.length);
      for (int n = 0; n < values.length; n++) {
        assertThat(values[n]).isEqualTo(SyntheticRecording.step(n) * 0.5);
      }
    }
    String head = Files.readString(file, StandardCharsets.ISO_8859_1).substring(0, 1024);
    assertThat(Double.parseDouble(head.substring(244, 252).strip())).isPositive();
  }

  @Test
  void blocksReadAsTheWholeDoes() throws IOException {
    Path file = written(TimeBase.ofHz(50_000), 120_000, List.of());
    try (Recording read = RecordingReaders.open(file, ReadOptions.defaults())) {
      Channel channel = read.channels().get(0);
      double[] whole = new double[100_000];
      read.read(channel, 11, whole, 0, whole.length);
      double[] part = new double[777];
      for (int at = 0; at + 777 < whole.length; at += 7_001) {
        read.read(channel, 11 + at, part, 0, 777);
        assertThat(part).isEqualTo(Arrays.copyOfRange(whole, at, at + 777));
      }
      assertThatThrownBy(() -> read.read(channel, channel.sampleCount() - 1, part, 0, 2))
          .isInstanceOf(IllegalArgumentException.class);
    }
  }

  @Test
  void annotationsKeepSevenDecimals() throws IOException {
    Path file =
        written(
            TimeBase.ofHz(50_000),
            200_000,
            List.of(
                new Annotation(0.5, null, "site one"),
                new Annotation(2.1234567, 0.25, "<b>=1+1</b>")));
    try (Recording read = RecordingReaders.open(file, ReadOptions.defaults())) {
      assertThat(read.annotations())
          .containsExactly(
              new Annotation(0.5, null, "site one"),
              new Annotation(2.1234567, 0.25, "<b>=1+1</b>"));
    }
  }

  @Test
  void row1GarbledUnitLeavesTheAmplitudeUncalibrated() throws IOException {
    Path file = written(TimeBase.ofHz(50_000), 50_000, List.of());
    patch(file, 256 + 2 * 96, ".V      ");
    try (Recording read = RecordingReaders.open(file, ReadOptions.defaults())) {
      assertThat(read.channels().get(0).calibration()).isEqualTo(Calibration.NONE);
    }
  }

  @Test
  void row13WrongRecordCountsAndCutRecordsAreStated() throws IOException {
    Path file = written(TimeBase.ofHz(50_000), 200_000, List.of());
    patch(file, 236, "-1      ");
    byte[] bytes = Files.readAllBytes(file);
    Files.write(file, Arrays.copyOf(bytes, bytes.length - 100));
    try (Recording read = RecordingReaders.open(file, ReadOptions.defaults())) {
      assertThat(read.findings())
          .extracting(Finding::code)
          .contains(FindingCode.RECORD_COUNT, FindingCode.TRAILING_BYTES);
      assertThat(read.channels().get(0).sampleCount()).isLessThan(200_000);
    }
  }

  @Test
  void row14EqualLimitsRefuseThatChannelOnly() throws IOException {
    Path file = written(TimeBase.ofHz(50_000), 50_000, List.of());
    patch(file, 256 + 2 * 104, "5       ");
    patch(file, 256 + 2 * 112, "5       ");
    try (Recording read = RecordingReaders.open(file, ReadOptions.defaults())) {
      assertThat(read.channels()).isEmpty();
      assertThat(read.findings()).extracting(Finding::code).contains(FindingCode.CHANNEL_REFUSED);
    }
  }

  @Test
  void row19RecordDurationZeroIsRefusedByPlace() throws IOException {
    Path file = written(TimeBase.ofHz(50_000), 50_000, List.of());
    patch(file, 244, "0       ");
    assertThatThrownBy(() -> RecordingReaders.open(file, ReadOptions.defaults()))
        .isInstanceOf(RecordingFormatException.class)
        .hasMessageContaining("byte 244, duration of a record");
  }

  @Test
  void row18WhatIsNoRecordingIsNamedForWhatItIs() throws IOException {
    Path file = folder.resolve("page.edf");
    Files.writeString(file, "<!DOCTYPE html><html></html>");
    assertThatThrownBy(() -> RecordingReaders.open(file, ReadOptions.defaults()))
        .isInstanceOf(RecordingFormatException.class)
        .hasMessageContaining("an HTML page");
  }

  private static void patch(Path file, int at, String text) throws IOException {
    byte[] bytes = Files.readAllBytes(file);
    System.arraycopy(text.getBytes(StandardCharsets.US_ASCII), 0, bytes, at, text.length());
    Files.write(file, bytes);
  }
}
