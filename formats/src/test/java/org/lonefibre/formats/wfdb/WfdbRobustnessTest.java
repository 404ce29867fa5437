package org.lonefibre.formats.wfdb;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.LocalDateTime;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.lonefibre.formats.RecordingReaders;
import org.lonefibre.formats.reader.ReadOptions;
import org.lonefibre.signal.recording.Annotation;
import org.lonefibre.signal.recording.Channel;
import org.lonefibre.signal.recording.Channel.Calibration;
import org.lonefibre.signal.recording.Finding;
import org.lonefibre.signal.recording.FindingCode;
import org.lonefibre.signal.recording.Recording;
import org.lonefibre.signal.recording.RecordingFormatException;
import org.lonefibre.signal.recording.Segment;
import org.lonefibre.signal.recording.TimeBase;

/** WFDB records right and wrong; the row is that of the list of files a reader must survive. */
class WfdbRobustnessTest {

  @TempDir Path folder;

  private Recording open(String... lines) throws IOException {
    return open(ReadOptions.defaults(), lines);
  }

  private Recording open(ReadOptions options, String... lines) throws IOException {
    return RecordingReaders.open(WfdbFile.header(folder, "r.hea", lines), options);
  }

  private static double[] samples(Recording recording, int channel) throws IOException {
    Channel own = recording.channels().get(channel);
    double[] samples = new double[(int) own.sampleCount()];
    recording.read(own, 0, samples, 0, samples.length);
    return samples;
  }

  private static List<FindingCode> codes(Recording recording) {
    return recording.findings().stream().map(Finding::code).toList();
  }

  @ParameterizedTest
  @ValueSource(ints = {16, 24, 32, 61, 80, 160, 212, 310, 311})
  void severalSignalsAndRatesInOneFileAreToldApartInEveryFormat(int format) throws IOException {
    int frames = 1_003;
    int most = format == 80 ? 127 : 511;
    Random random = new Random(format);
    int[] values = random.ints(4 * frames, -most, most + 1).toArray();
    WfdbFile.samples(folder, "r.dat", format, values);
    try (Recording recording =
        open(
            "r 3 1000 " + frames,
            "r.dat " + format + " 1/uV 0 0 0 0 0 A",
            "r.dat " + format + "x2 1/uV 0 0 0 0 0 B",
            "r.dat " + format + " 1/uV 0 0 0 0 0 C")) {
      assertThat(recording.channels()).extracting(Channel::label).containsExactly("A", "B", "C");
      assertThat(recording.channels().get(1).timeBase()).isEqualTo(new TimeBase(2000, 1));
      double[] a = samples(recording, 0);
      double[] b = samples(recording, 1);
      double[] c = samples(recording, 2);
      for (int f = 0; f < frames; f++) {
        assertThat(new double[] {a[f], b[2 * f], b[2 * f + 1], c[f]})
            .containsExactly(
                values[4 * f], values[4 * f + 1], values[4 * f + 2], values[4 * f + 3]);
      }
    }
  }

  @Test
  void differencesAreSummedFromTheInitialValueOfEachSignal() throws IOException {
    int[] values = new int[2 * 40_000];
    Random random = new Random(8);
    long[] sum = {1000, -5};
    double[][] expected = new double[2][40_000];
    for (int k = 0; k < values.length; k++) {
      values[k] = random.nextInt(-128, 128);
      sum[k % 2] += values[k];
      expected[k % 2][k / 2] = sum[k % 2];
    }
    WfdbFile.samples(folder, "r.dat", 8, values);
    try (Recording recording =
        open("r 2 1000 40000", "r.dat 8 1/uV 0 0 1000 0 0 A", "r.dat 8 1/uV 0 0 -5 0 0 B")) {
      for (int c = 0; c < 2; c++) {
        assertThat(samples(recording, c)).isEqualTo(expected[c]);
        double[] one = new double[3];
        recording.read(recording.channels().get(c), 33_333, one, 0, 3);
        assertThat(one).isEqualTo(Arrays.copyOfRange(expected[c], 33_333, 33_336));
      }
    }
  }

  @Test
  void row20AMissingLengthIsInferredAndMarked() throws IOException {
    WfdbFile.samples(folder, "r.dat", 16, WfdbFile.interleaved(2, 321));
    for (String line : List.of("r 2 1000", "r 2 1000 0")) {
      try (Recording recording = open(line, "r.dat 16 200/mV", "r.dat 16 200/mV")) {
        assertThat(recording.channels().get(1).sampleCount()).isEqualTo(321);
        assertThat(codes(recording)).contains(FindingCode.RECORD_COUNT);
      }
    }
  }

  @Test
  void row20AFileShorterOrLongerThanTheHeaderIsUsedAsFarAsItGoesAndMarked() throws IOException {
    WfdbFile.samples(folder, "r.dat", 16, WfdbFile.interleaved(2, 321));
    try (Recording recording = open("r 2 1000 500", "r.dat 16 200/mV", "r.dat 16 200/mV")) {
      assertThat(recording.channels().get(0).sampleCount()).isEqualTo(321);
      assertThat(recording.findings())
          .filteredOn(f -> f.code() == FindingCode.RECORD_COUNT)
          .singleElement()
          .satisfies(f -> assertThat(f.text()).contains("500").contains("321"));
    }
    try (Recording recording = open("r 2 1000 300", "r.dat 16 200/mV", "r.dat 16 200/mV")) {
      assertThat(recording.channels().get(0).sampleCount()).isEqualTo(300);
      assertThat(codes(recording)).contains(FindingCode.RECORD_COUNT);
    }
  }

  @ParameterizedTest
  @CsvSource({"212, 4, 2", "212, 5, 3", "310, 5, 3", "310, 6, 4", "311, 6, 4", "311, 7, 5"})
  void row20OddBytesAtTheEndOfAPackGiveWholeSamplesOnly(int format, int bytes, int samples)
      throws IOException {
    int[] values = {1, -2, 3, -4, 5, -6};
    Files.write(folder.resolve("r.dat"), Arrays.copyOf(WfdbFile.encode(format, values), bytes));
    try (Recording recording = open("r 1 1000", "r.dat " + format + " 1/uV")) {
      double[] expected = Arrays.stream(values).limit(samples).asDoubleStream().toArray();
      assertThat(samples(recording, 0)).isEqualTo(expected);
      boolean isRest = bytes == 4 || (bytes == 5 && format == 310);
      assertThat(codes(recording).contains(FindingCode.TRAILING_BYTES)).isEqualTo(isRest);
    }
  }

  @ParameterizedTest
  @CsvSource({
    "200(0)/mV, 5000, 0", "8.19(1)/uV, 0.1221001221, 1", "200/mV, 5000, 0", "1e2(-7)/mV, 10000, -7",
    "200, 5000, 0", "200(50), 5000, 50", "-4/uV, -0.25, 0", "0.5(3)/V, 2000000, 3"
  })
  void row21GainBaselineAndUnitAreExactInAllTheirForms(String gain, double stepUv, int baseline)
      throws IOException {
    double scale = gain.endsWith("uV") || gain.endsWith("/V") ? 1 : 1e-3;
    WfdbFile.samples(folder, "r.dat", 16, 0, 1, -1, 1000);
    try (Recording recording = open("r 1 1000 4", "r.dat 16 " + gain + " 12 0 0 0 0 A")) {
      assertThat(recording.channels().get(0).calibration()).isEqualTo(Calibration.MICROVOLT);
      double[] samples = samples(recording, 0);
      int[] stored = {0, 1, -1, 1000};
      for (int k = 0; k < stored.length; k++) {
        double expected = (stored[k] - baseline) * stepUv * scale;
        assertThat(samples[k]).isCloseTo(expected, within(1e-9 * Math.abs(expected) + 1e-12));
      }
      assertThat(codes(recording).contains(FindingCode.FORMAT_DEFAULT))
          .isEqualTo(!gain.contains("/"));
      assertThat(codes(recording).contains(FindingCode.INVERTED_RANGE))
          .isEqualTo(gain.startsWith("-"));
    }
  }

  @Test
  void row21TheZeroOfTheConverterIsTheBaselineWhereNoneIsGiven() throws IOException {
    WfdbFile.samples(folder, "r.dat", 16, 1024, 1224);
    try (Recording recording = open("r 1 1000 2", "r.dat 16 200 11 1024 0 0 0 A")) {
      assertThat(samples(recording, 0)).containsExactly(0, 1000);
    }
  }

  @ParameterizedTest
  @ValueSource(strings = {"r.dat 16", "r.dat 16 0", "r.dat 16 0/mV", "r.dat 16 0(3)/mV 12 0 0"})
  void row21WithoutAGainAmplitudesAreUnknownAndTheDefaultIsNamed(String line) throws IOException {
    WfdbFile.samples(folder, "r.dat", 16, 1, 2, 3);
    try (Recording recording = open("r 1 1000 3", line)) {
      assertThat(recording.channels().get(0).calibration()).isEqualTo(Calibration.NONE);
      assertThat(codes(recording)).contains(FindingCode.UNCALIBRATED, FindingCode.FORMAT_DEFAULT);
      assertThat(recording.findings())
          .anySatisfy(f -> assertThat(f.text()).contains("200 steps per mV"));
    }
  }

  @Test
  void row21WithoutARateTheDefaultIsUsedAndFlaggedUnlessOneIsTold() throws IOException {
    WfdbFile.samples(folder, "r.dat", 16, 1, 2, 3);
    try (Recording recording = open("r 1", "r.dat 16 200/mV")) {
      assertThat(recording.channels().get(0).timeBase()).isEqualTo(new TimeBase(250, 1));
      assertThat(recording.findings())
          .anySatisfy(
              f -> {
                assertThat(f.code()).isEqualTo(FindingCode.FORMAT_DEFAULT);
                assertThat(f.text()).contains("250 Hz");
              });
    }
    try (Recording recording =
        open(ReadOptions.defaults().withSamplingRateHz(48_000), "r 1", "r.dat 16 200/mV")) {
      assertThat(recording.channels().get(0).timeBase()).isEqualTo(new TimeBase(48_000, 1));
      assertThat(codes(recording)).doesNotContain(FindingCode.FORMAT_DEFAULT);
    }
  }

  @ParameterizedTest
  @CsvSource({
    "16, -32768",
    "24, -8388608",
    "32, -2147483648",
    "61, -32768",
    "80, -128",
    "160, -32768",
    "212, -2048",
    "310, -512",
    "311, -512"
  })
  void row22InvalidSamplesAreGapsAndNeverNumbers(int format, int invalid) throws IOException {
    int[] values = {invalid, 1, 2, invalid, invalid, 3, 4, 5, invalid};
    WfdbFile.samples(folder, "r.dat", format, values);
    try (Recording recording = open("r 1 1000 9", "r.dat " + format + " 1/uV 0 0 0 0 0 A")) {
      assertThat(samples(recording, 0)).containsExactly(1, 2, 3, 4, 5);
      assertThat(recording.channels().get(0).segments())
          .containsExactly(new Segment(0, 2, 0.001), new Segment(2, 3, 0.005));
      assertThat(recording.findings())
          .filteredOn(f -> f.code() == FindingCode.MISSING_SAMPLES)
          .singleElement()
          .satisfies(f -> assertThat(f.text()).startsWith("4 samples"));
      double[] some = new double[2];
      recording.read(recording.channels().get(0), 1, some, 0, 2);
      assertThat(some).containsExactly(2, 3);
    }
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "../r.dat",
        "/etc/hostname",
        "..",
        ".",
        "sub/r.dat",
        "..\\r.dat",
        "C:r.dat",
        "-",
        "r.hea",
        "./r.hea",
        "none.dat",
        "a\u0001b"
      })
  void row28NamesThatLeadElsewhereOrToTheHeaderAreRefused(String name) throws IOException {
    Files.createDirectories(folder.resolve("sub"));
    Files.write(folder.resolve("sub/r.dat"), new byte[10]);
    Path header = WfdbFile.header(folder, "r.hea", "r 1 1000", name + " 16 200/mV");
    assertThatThrownBy(() -> new WfdbReader().open(header, ReadOptions.defaults()))
        .isInstanceOf(RecordingFormatException.class)
        .hasMessageStartingWith("r.hea: line 2, file: ");
  }

  @ParameterizedTest
  @ValueSource(strings = {"r", "../x", "/x", "x/y", "..", "none"})
  void row28PartsThatAreTheRecordItselfOrLeadElsewhereAreRefused(String name) throws IOException {
    assertThatThrownBy(() -> open("r/2 1 1000 20", name + " 10", "~ 10"))
        .isInstanceOf(RecordingFormatException.class)
        .hasMessageStartingWith("r.hea: line 2, ");
  }

  @Test
  void row28PartsInPartsAndPartsNamedTwiceAreRefused() throws IOException {
    part("a", "A", 10);
    WfdbFile.header(folder, "b.hea", "b/1 1 1000 10", "a 10");
    assertThatThrownBy(() -> open("r/2 1 1000 20", "a 10", "b 10"))
        .isInstanceOf(RecordingFormatException.class)
        .hasMessageStartingWith("r.hea: line 3, part: ");
    assertThatThrownBy(() -> open("r/2 1 1000 20", "a 10", "a 10"))
        .isInstanceOf(RecordingFormatException.class)
        .hasMessageContaining("not named before");
    assertThatThrownBy(() -> open("r 3 1000 5", "a.dat 16", "~ 0", "a.dat 16"))
        .isInstanceOf(RecordingFormatException.class)
        .hasMessageContaining("one after the other");
  }

  private void part(String name, String label, int frames) throws IOException {
    WfdbFile.samples(folder, name + ".dat", 16, WfdbFile.interleaved(1, frames));
    WfdbFile.header(
        folder,
        name + ".hea",
        name + " 1 1000 " + frames,
        name + ".dat 16 200/mV 16 0 0 0 0 " + label);
  }

  @Test
  void partsOfVariableLayoutKeepTheirOwnGainAndLeaveGapsWhereASignalIsAbsent() throws IOException {
    WfdbFile.header(
        folder, "lay.hea", "lay 2 1000 0", "~ 0 200/mV 0 0 0 0 0 A", "~ 0 100/mV 0 0 0 0 0 B");
    WfdbFile.samples(folder, "p1.dat", 16, 10, 20, 30, 40);
    WfdbFile.header(
        folder,
        "p1.hea",
        "p1 2 1000 2",
        "p1.dat 16 1/uV 0 0 0 40 0 B",
        "p1.dat 16 2/uV 0 0 0 60 0 A");
    WfdbFile.samples(folder, "p2.dat", 16, 7, 8, 9);
    WfdbFile.header(folder, "p2.hea", "p2 1 1000 3", "p2.dat 16 1/uV 0 0 0 24 0 A");
    try (Recording recording = open("r/4 2 1000 9", "lay 0", "p1 2", "~ 4", "p2 3")) {
      Channel a = recording.channels().get(0);
      assertThat(a.label()).isEqualTo("A");
      assertThat(samples(recording, 0)).containsExactly(10, 20, 7, 8, 9);
      assertThat(a.segments()).containsExactly(new Segment(0, 2, 0), new Segment(2, 3, 0.006));
      assertThat(samples(recording, 1)).containsExactly(10, 30);
      assertThat(codes(recording)).doesNotContain(FindingCode.HEADER_CONTRADICTION);
    }
  }

  @Test
  void partsThatFollowEachOtherWithoutAGapAreOneStretchAndAreReadAcross() throws IOException {
    part("a", "A", 100);
    part("b", "A", 50);
    try (Recording recording = open("r/2 1 1000 999", "a 100", "b 50")) {
      assertThat(recording.channels().get(0).segments()).containsExactly(new Segment(0, 150, 0));
      double[] all = samples(recording, 0);
      for (int k = 0; k < all.length; k++) {
        assertThat(all[k]).isEqualTo(5.0 * WfdbFile.stored(1, k < 100 ? k : k - 100));
      }
      assertThat(codes(recording)).contains(FindingCode.HEADER_CONTRADICTION);
    }
  }

  @Test
  void aChannelWhoseUnitOrRateDiffersBetweenPartsIsRefusedAndOthersAreKept() throws IOException {
    part("a", "A", 10);
    WfdbFile.samples(folder, "b.dat", 16, WfdbFile.interleaved(4, 10));
    WfdbFile.header(folder, "b.hea", "b 1 1000 10", "b.dat 16x4 200/mV 16 0 0 0 0 A");
    try (Recording recording = open("r/2 1 1000 20", "b 10", "a 10")) {
      assertThat(recording.channels()).isEmpty();
      assertThat(codes(recording)).containsExactly(FindingCode.CHANNEL_REFUSED);
    }
    WfdbFile.header(folder, "c.hea", "c 1 2000 10", "b.dat 16x4 200/mV 16 0 0 0 0 A");
    assertThatThrownBy(() -> open("r/2 1 1000 20", "a 10", "c 10"))
        .isInstanceOf(RecordingFormatException.class)
        .hasMessageContaining("another rate");
  }

  @Test
  void skewAndByteOffsetAreTakenOff() throws IOException {
    byte[] samples = WfdbFile.encode(16, WfdbFile.interleaved(2, 20));
    byte[] moved = new byte[samples.length + 33];
    System.arraycopy(samples, 0, moved, 33, samples.length);
    Files.write(folder.resolve("r.dat"), moved);
    try (Recording recording = open("r 2 1000 20", "r.dat 16:3+33 1/uV", "r.dat 16+33 1/uV")) {
      assertThat(recording.channels().get(0).sampleCount()).isEqualTo(17);
      assertThat(samples(recording, 0)[0]).isEqualTo(WfdbFile.stored(1, 3));
      assertThat(samples(recording, 1)[0]).isEqualTo(WfdbFile.stored(2, 0));
    }
  }

  @Test
  void aWrongChecksumIsSaidAndARightOneIsNot() throws IOException {
    WfdbFile.samples(folder, "r.dat", 16, 30_000, 30_000, -7);
    int right = (short) (60_000 - 7);
    for (int off = 0; off < 2; off++) {
      try (Recording recording =
          open("r 1 1000 3", "r.dat 16 1/uV 16 0 0 " + (right + off) + " 0 A")) {
        assertThat(codes(recording).contains(FindingCode.HEADER_CONTRADICTION)).isEqualTo(off == 1);
      }
    }
  }

  @ParameterizedTest
  @CsvSource({
    "16, 12, 0, -2048, 2047",
    "16, 16, 0, -32767, 32767",
    "212, 11, 1024, 0, 2047",
    "16, 0, 0, -32767, 32767",
    "16, 4, 0, -32767, 32767"
  })
  void theRangeOfTheConverterIsTheStatedOneWhereTheSamplesAllowIt(
      int format, int bits, int zero, double low, double high) throws IOException {
    WfdbFile.samples(folder, "r.dat", format, 0, 100, 1);
    try (Recording recording =
        open("r 1 1000 3", "r.dat " + format + " 1(0)/uV " + bits + " " + zero)) {
      assertThat(recording.channels().get(0).lowRailUv()).isEqualTo(low);
      assertThat(recording.channels().get(0).highRailUv()).isEqualTo(high);
      assertThat(recording.channels().get(0).resolutionUv()).isEqualTo(1);
    }
  }

  @Test
  void theRateIsExactAndTheStartIsRead() throws IOException {
    WfdbFile.samples(folder, "r.dat", 16, 1, 2);
    try (Recording recording =
        open("r 1 48828.125/1000(5) 2 10:20:30.25 24/11/2026", "r.dat 16x2 1/uV")) {
      assertThat(recording.channels().get(0).timeBase()).isEqualTo(new TimeBase(390_625, 4));
      assertThat(recording.findStart())
          .contains(LocalDateTime.of(2026, 11, 24, 10, 20, 30, 250_000_000));
    }
    try (Recording recording = open("r 1 1000 2 10:20:30 31/02/2026", "r.dat 16 1/uV")) {
      assertThat(recording.findStart()).isEmpty();
      assertThat(codes(recording)).contains(FindingCode.INVALID_DATE);
    }
  }

  @Test
  void annotationsBesideTheHeaderAreEvents() throws IOException {
    WfdbFile.samples(folder, "r.dat", 16, 1, 2);
    WfdbFile.annotations(
        folder,
        "r.atr",
        WfdbFile.annotation(22, 0, "## time resolution: 10000"),
        WfdbFile.annotation(22, 5_000, "site 1"),
        WfdbFile.annotation(1, 100, ""),
        WfdbFile.annotation(28, 1, "(X"),
        WfdbFile.annotation(22, 100_000, "site 2"),
        WfdbFile.annotation(22, -50_000, "stim"));
    try (Recording recording = open("r 1 1000 2", "r.dat 16 1/uV")) {
      assertThat(recording.annotations())
          .containsExactly(
              new Annotation(0.5, null, "site 1"),
              new Annotation(0.51, null, "N"),
              new Annotation(0.5101, null, "+ (X"),
              new Annotation(5.5101, null, "stim"),
              new Annotation(10.5101, null, "site 2"));
      assertThat(codes(recording)).contains(FindingCode.ANNOTATION_RESOLUTION);
    }
  }

  @Test
  void annotationsThatAreCutOrLieBeforeTheStartAreSaidAndTheSignalsKept() throws IOException {
    WfdbFile.samples(folder, "r.dat", 16, 1, 2);
    byte[] one = WfdbFile.annotation(22, 5, "site 1");
    Files.write(folder.resolve("r.atr"), Arrays.copyOf(one, one.length - 3));
    try (Recording recording = open("r 1 1000 2", "r.dat 16 1/uV")) {
      assertThat(codes(recording)).contains(FindingCode.ANNOTATION_UNREADABLE);
      assertThat(samples(recording, 0)).containsExactly(1, 2);
    }
    WfdbFile.annotations(folder, "r.atr", WfdbFile.annotation(1, -9, ""));
    try (Recording recording = open("r 1 1000 2", "r.dat 16 1/uV")) {
      assertThat(recording.annotations()).isEmpty();
      assertThat(codes(recording)).contains(FindingCode.ANNOTATION_UNREADABLE);
    }
  }

  @ParameterizedTest
  @ValueSource(ints = {508, 516, 524})
  void compressedSamplesAreRefusedWithTheReason(int format) throws IOException {
    assertThatThrownBy(() -> open("r 1 1000 2", "r.dat " + format + " 200/mV"))
        .isInstanceOf(RecordingFormatException.class)
        .hasMessageStartingWith("r.hea: line 2, format: ")
        .hasMessageContaining("FLAC");
  }

  @ParameterizedTest
  @CsvSource({
    "r 0 1000, r.dat 16, 'line 1, number of signals'",
    "r 2 1000, r.dat 16, 'line 1, number of signals'",
    "r 1 -5, r.dat 16, 'line 1, sampling rate'",
    "r 1 1000 x, r.dat 16, 'line 1, number of samples'",
    "r 1 1000, r.dat 17, 'line 2, format'",
    "r 1 1000, r.dat 16y, 'line 2, format'",
    "r 1 1000, r.dat 16 a/mV, 'line 2, gain'",
    "r 1 1000, r.dat 16 200 x, 'line 2, converter resolution'"
  })
  void aFieldThatCannotBeReadIsRefusedWithItsLine(String record, String signal, String place)
      throws IOException {
    WfdbFile.samples(folder, "r.dat", 16, 1, 2);
    Path header = WfdbFile.header(folder, "r.hea", record, signal);
    assertThatThrownBy(() -> new WfdbReader().open(header, ReadOptions.defaults()))
        .isInstanceOf(RecordingFormatException.class)
        .hasMessageStartingWith("r.hea: " + place + ": ");
  }

  @Test
  void whoNamesTheSamplesIsToldToNameTheHeader() throws IOException {
    WfdbFile.header(folder, "r.hea", "r 1 1000 2", "r.dat 16 200/mV");
    Path samples = WfdbFile.samples(folder, "r.dat", 16, 1, 2);
    assertThatThrownBy(() -> RecordingReaders.open(samples, ReadOptions.defaults()))
        .isInstanceOf(RecordingFormatException.class)
        .hasMessageEndingWith("name the header of the record, r.hea");
    WfdbFile.header(folder, "other.hea", "other 1 1000 2", "lead.bin 16 200/mV");
    Path lead = WfdbFile.samples(folder, "lead.bin", 16, 1, 2);
    assertThatThrownBy(() -> RecordingReaders.open(lead, ReadOptions.defaults()))
        .isInstanceOf(RecordingFormatException.class)
        .hasMessageEndingWith("name the header of the record, other.hea");
  }

  @Test
  void tablesOfNumbersAreNoHeaders() {
    WfdbReader reader = new WfdbReader();
    for (String text :
        List.of("1 2 3\n4 16 6\n", "100 1 360\n101 16 200\n", "a 1\n1 2\n", "EMG 1\n1.5e-3 16\n")) {
      assertThat(reader.recognises(text.getBytes(java.nio.charset.StandardCharsets.US_ASCII)))
          .isFalse();
    }
    assertThat(
            reader.recognises(
                "# text\n100 1 360 9\n100.dat 212 200\n"
                    .getBytes(java.nio.charset.StandardCharsets.US_ASCII)))
        .isTrue();
  }

  @Test
  void row17SamplesBeyondFourGigabytesAreReached() throws IOException {
    long offset = 4_400_000_000L;
    Path path = Files.createFile(folder.resolve("r.dat"));
    try (FileChannel file = FileChannel.open(path, StandardOpenOption.WRITE)) {
      file.write(ByteBuffer.wrap(WfdbFile.encode(212, 7, -8, 9)), offset);
    }
    try (Recording recording = open("r 1 1000 3", "r.dat 212+" + offset + " 1/uV")) {
      assertThat(samples(recording, 0)).containsExactly(7, -8, 9);
    }
  }
}
