package org.lonefibre.formats.writer;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import java.util.Random;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import org.lonefibre.formats.RecordingReaders;
import org.lonefibre.formats.reader.ReadOptions;
import org.lonefibre.signal.recording.Annotation;
import org.lonefibre.signal.recording.Channel;
import org.lonefibre.signal.recording.Recording;
import org.lonefibre.signal.recording.TimeBase;

class EdfPlusWriterTest {

  @TempDir Path folder;

  private Path file() {
    return folder.resolve("made.edf");
  }

  private Recording again(MadeRecording made, EdfForm form) throws IOException {
    EdfPlusWriter.write(made, "S1", MadeRecording.START, file(), form);
    return RecordingReaders.open(file(), ReadOptions.defaults());
  }

  private static double[] samples(Recording recording, int index) throws IOException {
    Channel channel = recording.channels().get(index);
    double[] samples = new double[Math.toIntExact(channel.sampleCount())];
    recording.read(channel, 0, samples, 0, samples.length);
    return samples;
  }

  private static String header(Path file, int at, int length) throws IOException {
    byte[] bytes = Files.readAllBytes(file);
    return new String(bytes, at, length, StandardCharsets.ISO_8859_1).strip();
  }

  @ParameterizedTest
  @EnumSource
  void everyStepOfTheConverterComesBackToTheBit(EdfForm form) throws IOException {
    MadeRecording made = MadeRecording.jitterStudy(50_000);
    try (Recording recording = again(made, form)) {
      assertThat(recording.findings()).isEmpty();
      for (int c = 0; c < 2; c++) {
        double step = Objects.requireNonNull(made.channels().get(c).resolutionUv());
        double[] read = samples(recording, c);
        assertThat(read).hasSize(50_000);
        for (int k = 0; k < read.length; k++) {
          assertThat(Math.round(read[k] / step)).isEqualTo(Math.round(made.samples(c)[k] / step));
          assertThat(read[k]).isCloseTo(made.samples(c)[k], within(1e-8));
        }
      }
      assertThat(recording.channels().get(0).lowRailUv()).isEqualTo(-6553.6);
      assertThat(recording.channels().get(0).resolutionUv()).isCloseTo(0.2, within(1e-12));
      assertThat(recording.channels().get(0).prefilter()).isEqualTo("HP:500Hz LP:10000Hz");
    }
  }

  @Test
  void aFileReadAndWrittenAgainHoldsTheSameNumbers() throws IOException {
    MadeRecording made = MadeRecording.jitterStudy(50_000);
    byte[] second;
    try (Recording first = again(made, EdfForm.EDF_PLUS)) {
      Path copy = folder.resolve("copy.edf");
      EdfPlusWriter.write(first, "S1", MadeRecording.START, copy);
      second = Files.readAllBytes(copy);
    }
    assertThat(second).isEqualTo(Files.readAllBytes(file()));
  }

  @Test
  void theSameRecordingGivesTheSameBytes() throws IOException {
    again(MadeRecording.jitterStudy(9_999), EdfForm.EDF_PLUS).close();
    byte[] first = Files.readAllBytes(file());
    again(MadeRecording.jitterStudy(9_999), EdfForm.EDF_PLUS).close();
    assertThat(Files.readAllBytes(file())).isEqualTo(first);
  }

  @ParameterizedTest
  @CsvSource({
    "390625,8",
    "46875,2",
    "50000,1",
    "20000,1",
    "4000,1",
    "1,1",
    "100000,3",
    "200000,1",
    "1201,2"
  })
  void ratesAreExactAndRecordsAreShort(long samples, long seconds) throws IOException {
    MadeRecording made = new MadeRecording();
    TimeBase timeBase = new TimeBase(samples, seconds);
    made.channel("EMG", timeBase, MadeRecording.steps(new Random(1), 60_000, 0.1), 0.1);
    try (Recording recording = again(made, EdfForm.EDF_PLUS)) {
      assertThat(recording.channels().get(0).timeBase()).isEqualTo(timeBase);
      assertThat(recording.channels().get(0).sampleCount()).isGreaterThanOrEqualTo(60_000);
      int perRecord = Integer.parseInt(header(file(), 256 + 2 * 216, 8));
      int annotation = Integer.parseInt(header(file(), 256 + 2 * 216 + 8, 8));
      assertThat(2 * (perRecord + annotation)).isLessThanOrEqualTo(61_440);
    }
  }

  @Test
  void channelsOfDifferentRatesShareRecords() throws IOException {
    MadeRecording made = new MadeRecording();
    made.channel("A", TimeBase.ofHz(50_000), MadeRecording.steps(new Random(1), 50_000, 0.1), 0.1);
    made.channel("B", TimeBase.ofHz(2_000), MadeRecording.steps(new Random(2), 2_000, 0.1), 0.1);
    try (Recording recording = again(made, EdfForm.EDF_PLUS)) {
      assertThat(recording.channels())
          .extracting(Channel::sampleCount)
          .containsExactly(50_000L, 2_000L);
      assertThat(samples(recording, 1)[1_999]).isCloseTo(3276.7, within(1e-9));
    }
  }

  @Test
  void row5ARateThatNeedsALongRecordIsWrittenExactly() throws IOException {
    double[] values = MadeRecording.steps(new Random(1), 240_246, 0.1);
    MadeRecording made =
        new MadeRecording().channel("EMG", new TimeBase(120_123, 200), values, 0.1);
    try (Recording recording = again(made, EdfForm.EDF_PLUS)) {
      assertThat(recording.channels().get(0).timeBase()).isEqualTo(new TimeBase(120_123, 200));
      assertThat(recording.channels().get(0).sampleCount()).isEqualTo(240_246);
    }
  }

  @Test
  void aRateThatNoRecordCanHoldExactlyIsRefused() {
    for (TimeBase rate : List.of(new TimeBase(9_999_991, 2), new TimeBase(120_123, 200))) {
      MadeRecording made = new MadeRecording().channel("EMG", rate, new double[] {0, 1}, 0.1);
      assertThatThrownBy(() -> again(made, EdfForm.EDF_PLUS))
          .isInstanceOf(IllegalArgumentException.class)
          .hasMessageContaining("8388608 bytes");
    }
  }

  @Test
  void theEndIsHeldWhereTheLastRecordCannotBeFull() throws IOException {
    double[] values = MadeRecording.steps(new Random(1), 100_003, 0.1);
    MadeRecording made = new MadeRecording().channel("EMG", TimeBase.ofHz(50_000), values, 0.1);
    try (Recording recording = again(made, EdfForm.EDF_PLUS)) {
      double[] read = samples(recording, 0);
      assertThat(read.length).isGreaterThan(100_003);
      assertThat(read[read.length - 1]).isCloseTo(values[100_002], within(1e-9));
    }
  }

  @Test
  void withoutRailsAndStepTheFullRangeOfStepsIsUsed() throws IOException {
    double[] values = new double[50_000];
    Random random = new Random(5);
    for (int k = 0; k < values.length; k++) {
      values[k] = 1234.56789 * random.nextGaussian();
    }
    MadeRecording made = new MadeRecording().channel("EMG", TimeBase.ofHz(50_000), values, null);
    double range =
        Arrays.stream(values).max().orElseThrow() - Arrays.stream(values).min().orElseThrow();
    for (EdfForm form : EdfForm.values()) {
      try (Recording recording = again(made, form)) {
        double[] read = samples(recording, 0);
        for (int k = 0; k < values.length; k++) {
          assertThat(read[k]).isCloseTo(values[k], within(0.501 * range / form.steps() + 1e-9));
        }
      }
    }
  }

  @Test
  void aConstantChannelIsWritten() throws IOException {
    double[] values = new double[1000];
    Arrays.fill(values, 7.25);
    MadeRecording made = new MadeRecording().channel("EMG", TimeBase.ofHz(1000), values, null);
    try (Recording recording = again(made, EdfForm.EDF_PLUS)) {
      assertThat(samples(recording, 0)[500]).isCloseTo(7.25, within(1e-4));
    }
  }

  @Test
  void annotationsKeepSevenDecimalsAndNoneIsLostWhereManyComeTogether() throws IOException {
    MadeRecording made = MadeRecording.jitterStudy(100_000);
    for (int k = 0; k < 500; k++) {
      made.annotate(1 + k * 1e-6 + 1e-7, "stimulus " + k);
    }
    made.annotate(2.0001, "µ ü");
    try (Recording recording = again(made, EdfForm.EDF_PLUS)) {
      List<Annotation> read = recording.annotations();
      assertThat(read).hasSize(503);
      assertThat(read.get(1)).isEqualTo(new Annotation(0.5123457, null, "site 2"));
      assertThat(read.get(102)).isEqualTo(new Annotation(1.0001001, null, "stimulus 100"));
      assertThat(read.get(502)).isEqualTo(new Annotation(2.0001, null, "µ ü"));
    }
  }

  @Test
  void controlCharactersCannotBreakAnAnnotation() throws IOException {
    MadeRecording made = MadeRecording.jitterStudy(50_000);
    made.annotate(0.9, "a\u0014+5\u0015b\u0000c\n");
    try (Recording recording = again(made, EdfForm.EDF_PLUS)) {
      assertThat(recording.annotations()).hasSize(3);
      assertThat(recording.annotations().get(2)).isEqualTo(new Annotation(0.9, null, "a +5 b c "));
    }
  }

  @Test
  void theFractionOfTheStartIsKept() throws IOException {
    MadeRecording made = MadeRecording.jitterStudy(50_000);
    EdfPlusWriter.write(made, "S1", MadeRecording.START.plusNanos(250_000_000), file());
    try (Recording recording = RecordingReaders.open(file(), ReadOptions.defaults())) {
      assertThat(recording.findStart()).contains(MadeRecording.START.plusNanos(250_000_000));
      assertThat(recording.annotations().get(1).startS()).isEqualTo(0.5123457);
    }
  }

  @Test
  void aFailureLeavesNothingBehindAndTheOldFileWhole() throws IOException {
    Files.writeString(file(), "old");
    double[] values = MadeRecording.steps(new Random(1), 200_000, 0.1);
    values[199_000] = Double.NaN;
    MadeRecording made = new MadeRecording().channel("EMG", TimeBase.ofHz(50_000), values, 0.1);
    assertThatThrownBy(() -> again(made, EdfForm.EDF_PLUS))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("not a number");
    assertThat(Files.readString(file())).isEqualTo("old");
    try (Stream<Path> files = Files.list(folder)) {
      assertThat(files).containsExactly(file());
    }
  }

  @Test
  void aLabelOutsideAsciiIsWrittenAsUnderscoresAndCutToItsField() throws IOException {
    MadeRecording made = new MadeRecording();
    made.channel("müscle with a very long name", TimeBase.ofHz(10), new double[10], 1.0);
    try (Recording recording = again(made, EdfForm.EDF_PLUS)) {
      assertThat(recording.channels().get(0).label()).isEqualTo("m_scle with a ve");
    }
  }
}
