package org.lonefibre.formats.edf;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;
import static org.lonefibre.formats.edf.EdfFile.stored;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.LocalDateTime;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
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

/** Faults that readers of EDF have met in the field; the row is that of the list of cases. */
class EdfRobustnessTest {

  @TempDir Path folder;

  private Recording open(EdfFile file) throws IOException {
    return new EdfReader().open(file.write(folder, "case.edf"), ReadOptions.defaults());
  }

  private static double[] samples(Recording recording, int index) throws IOException {
    Channel channel = recording.channels().get(index);
    double[] samples = new double[Math.toIntExact(channel.sampleCount())];
    recording.read(channel, 0, samples, 0, samples.length);
    return samples;
  }

  private static List<FindingCode> codes(Recording recording) {
    return recording.findings().stream().map(Finding::code).toList();
  }

  @ParameterizedTest
  @ValueSource(strings = {".V", "?V", "V?", "u", "mVolt?", "\u00c2", "Boolean"})
  void row1AGarbledUnitLeavesTheAmplitudeUncalibrated(String unit) throws IOException {
    try (Recording recording = open(EdfFile.edf().signal("EMG", unit, 10))) {
      assertThat(recording.channels().get(0).calibration()).isEqualTo(Calibration.NONE);
      assertThat(recording.channels().get(0).unit()).isEqualTo(unit);
      assertThat(codes(recording)).contains(FindingCode.UNCALIBRATED);
    }
  }

  @Test
  void row2NoUnitLeavesTheAmplitudeUncalibrated() throws IOException {
    try (Recording recording = open(EdfFile.edf().signal("EMG", "", 10))) {
      assertThat(recording.channels().get(0).calibration()).isEqualTo(Calibration.NONE);
      assertThat(codes(recording)).containsExactly(FindingCode.UNCALIBRATED);
    }
  }

  @ParameterizedTest
  @CsvSource({"uV,1", "\u00b5V,1", "mV,1000", "V,1e6", "nV,1e-3"})
  void aReadableUnitBecomesMicrovolts(String unit, double factor) throws IOException {
    try (Recording recording = open(EdfFile.edf().signal("EMG", unit, 10))) {
      Channel channel = recording.channels().get(0);
      assertThat(channel.calibration()).isEqualTo(Calibration.MICROVOLT);
      assertThat(samples(recording, 0)[3])
          .isCloseTo(0.1 * factor * stored(1, 3), within(1e-9 * factor));
      assertThat(channel.resolutionUv()).isCloseTo(0.1 * factor, within(1e-12 * factor));
      assertThat(channel.lowRailUv()).isCloseTo(-3276.8 * factor, within(1e-9 * factor));
      assertThat(channel.highRailUv()).isCloseTo(3276.7 * factor, within(1e-9 * factor));
    }
  }

  @Test
  void theGreekLetterMuIsReadInUtf8() throws IOException {
    String mu = new String("\u03bcV".getBytes(StandardCharsets.UTF_8), StandardCharsets.ISO_8859_1);
    try (Recording recording = open(EdfFile.edf().signal("EMG", mu, 10))) {
      assertThat(recording.channels().get(0).calibration()).isEqualTo(Calibration.MICROVOLT);
    }
  }

  @ParameterizedTest
  @CsvSource({
    "0.001,50,50000,1",
    "0.32,15625,390625,8",
    "60,36,3,5",
    "0.0005,1,2000,1",
    "2,46875,46875,2",
    "200,120123,120123,200",
    "1e-3,24,24000,1"
  })
  void row4And5TheRateIsAnExactFractionForAnyDurationOfARecord(
      String duration, int samples, long numerator, long denominator) throws IOException {
    try (Recording recording = open(EdfFile.edf().duration(duration).signal("E", "uV", samples))) {
      assertThat(recording.channels().get(0).timeBase())
          .isEqualTo(new TimeBase(numerator, denominator));
    }
  }

  @Test
  void row6GapsOfAnInterruptedRecordingBecomeSegments() throws IOException {
    String[] starts = {"0.25", "1.25", "5.5", "6.5"};
    EdfFile file =
        EdfFile.edf()
            .reserved("EDF+D")
            .signal("EMG", "uV", 10)
            .annotations(r -> "+" + starts[r] + "\u0014\u0014\u0000");
    try (Recording recording = open(file)) {
      assertThat(recording.format()).isEqualTo("EDF+D");
      assertThat(recording.channels().get(0).segments())
          .containsExactly(new Segment(0, 20, 0), new Segment(20, 20, 5.25));
    }
  }

  @Test
  void row6ARecordWhoseTimeCannotBeReadTouchesNeitherSideOfAGap() throws IOException {
    try (Recording recording = open(timed("EDF+D", "1", "0", "x", "5", "6"))) {
      assertThat(recording.channels().get(0).segments())
          .containsExactly(new Segment(0, 10, 0), new Segment(10, 10, 1), new Segment(20, 20, 5));
      assertThat(codes(recording)).contains(FindingCode.ANNOTATION_UNREADABLE);
    }
  }

  @Test
  void row6ARecordWhoseTimeCannotBeReadIsNoGapWhereNoTimeIsMissing() throws IOException {
    try (Recording recording = open(timed("EDF+D", "1", "0", "x", "2", "3"))) {
      assertThat(recording.channels().get(0).segments()).containsExactly(new Segment(0, 40, 0));
    }
  }

  @Test
  void row6AGapThatEndsAtAFullSecondIsFoundAlsoWhereZerosAreTrimmed() throws IOException {
    try (Recording recording = open(timed("EDF+D", "0.5", "0", "0.5", "1", "2"))) {
      assertThat(recording.channels().get(0).segments())
          .containsExactly(new Segment(0, 30, 0), new Segment(30, 10, 2));
    }
  }

  @Test
  void row6ARecordLostInAFileThatSaysItIsContinuousIsAGapAndAFinding() throws IOException {
    try (Recording recording = open(timed("EDF+C", "0.5", "0", "0.5", "1.5", "2"))) {
      assertThat(recording.channels().get(0).segments())
          .containsExactly(new Segment(0, 20, 0), new Segment(20, 20, 1.5));
      assertThat(codes(recording)).contains(FindingCode.GAP);
    }
  }

  @ParameterizedTest
  @ValueSource(strings = {"0 0.5003 1.001 1.4999", "0 0 0 0"})
  void row6ClocksThatStrollOrStandStillAreNoGapsInAFileThatSaysItIsContinuous(String starts)
      throws IOException {
    try (Recording recording = open(timed("EDF+C", "0.5", starts.split(" ")))) {
      assertThat(recording.channels().get(0).segments()).containsExactly(new Segment(0, 40, 0));
      assertThat(codes(recording)).doesNotContain(FindingCode.GAP);
    }
  }

  private static EdfFile timed(String kind, String duration, String... starts) {
    return EdfFile.edf()
        .reserved(kind)
        .duration(duration)
        .signal("EMG", "uV", 10)
        .annotations(r -> "+" + starts[r] + "\u0014\u0014\u0000");
  }

  @Test
  void row6TimesRoundedByTheWriterAreNoGaps() throws IOException {
    String[] starts = {"0", "0.33333", "0.66666", "0.99999"};
    EdfFile file =
        EdfFile.edf()
            .reserved("EDF+D")
            .duration("0.33333")
            .signal("EMG", "uV", 100)
            .annotations(
                r ->
                    "+"
                        + starts[r].substring(0, Math.min(6, starts[r].length()))
                        + "\u0014\u0014\u0000");
    try (Recording recording = open(file)) {
      assertThat(recording.channels().get(0).segments()).hasSize(1);
    }
  }

  @Test
  void row6TimeThatRunsBackwardsIsRefusedWithItsPlace() {
    EdfFile file =
        EdfFile.edf()
            .reserved("EDF+D")
            .signal("EMG", "uV", 10)
            .annotations(r -> "+" + (r == 2 ? 0 : r) + "\u0014\u0014\u0000");
    assertThatThrownBy(() -> open(file))
        .isInstanceOf(RecordingFormatException.class)
        .hasMessageContaining("byte 1068, time of record 3");
  }

  @Test
  void row6AnInterruptedRecordingWithoutTimesIsRefused() {
    assertThatThrownBy(() -> open(EdfFile.edf().reserved("EDF+D").signal("EMG", "uV", 10)))
        .isInstanceOf(RecordingFormatException.class)
        .hasMessageContaining("byte 192, kind of the file");
  }

  @Test
  void row7TheFractionOfTheStartIsTakenOffAndNoAnnotationIsLost() throws IOException {
    EdfFile file =
        EdfFile.edf()
            .reserved("EDF+C")
            .signal("EMG", "uV", 10)
            .annotations(
                r ->
                    "+"
                        + r
                        + ".39\u0014\u0014\u0000+"
                        + r
                        + ".4900000\u00150.5\u0014a"
                        + r
                        + "\u0014b\u0014\u0000");
    try (Recording recording = open(file)) {
      assertThat(recording.annotations())
          .hasSize(8)
          .startsWith(new Annotation(0.1, 0.5, "a0"), new Annotation(0.1, 0.5, "b"));
      assertThat(recording.findStart())
          .contains(LocalDateTime.of(2026, 11, 24, 10, 20, 30, 390_000_000));
    }
  }

  @ParameterizedTest
  @CsvSource({"1.0001,true", "1.000100,false", "1.0000001,false", "1,true"})
  void row8CoarseTimesOfAnnotationsAreFlagged(String onset, boolean flagged) throws IOException {
    EdfFile file =
        EdfFile.edf()
            .reserved("EDF+C")
            .signal("EMG", "uV", 10)
            .annotations(
                r ->
                    "+"
                        + r
                        + "\u0014\u0014\u0000"
                        + (r == 1 ? "+" + onset + "\u0014x\u0014\u0000" : ""));
    try (Recording recording = open(file)) {
      assertThat(codes(recording).contains(FindingCode.ANNOTATION_RESOLUTION)).isEqualTo(flagged);
    }
  }

  @Test
  void row9TimesAreDecimalAlsoAfterManyHours() throws IOException {
    EdfFile file =
        EdfFile.edf()
            .reserved("EDF+C")
            .signal("EMG", "uV", 10)
            .annotations(
                r ->
                    "+"
                        + r
                        + ".1\u0014\u0014\u0000"
                        + (r == 3 ? "+86400.3000001\u0014x\u0014\u0000" : ""));
    try (Recording recording = open(file)) {
      assertThat(recording.annotations()).containsExactly(new Annotation(86400.2000001, null, "x"));
    }
  }

  @Test
  void row10TextThatIsNotUtf8IsReadAsLatin1AndFlagged() throws IOException {
    EdfFile file =
        EdfFile.edf()
            .reserved("EDF+C")
            .signal("Müskel", "\u00b5V", 10)
            .annotations(r -> "+" + r + "\u0014\u0014\u0000+0.0000001\u0014Stöße\u0014\u0000");
    try (Recording recording = open(file)) {
      assertThat(recording.channels().get(0).label()).isEqualTo("Müskel");
      assertThat(recording.channels().get(0).calibration()).isEqualTo(Calibration.MICROVOLT);
      assertThat(recording.annotations().get(0).text()).isEqualTo("Stöße");
      assertThat(codes(recording)).containsOnly(FindingCode.TEXT_ENCODING);
    }
  }

  @ParameterizedTest
  @ValueSource(strings = {"+1.2.3", "1,5", "", "+", "+1E999999999", "+1\u0015x", "NaN"})
  void row11AMalformedAnnotationIsReportedWithItsBytesAndTheSignalKept(String onset)
      throws IOException {
    EdfFile file =
        EdfFile.edf()
            .reserved("EDF+C")
            .signal("EMG", "uV", 10)
            .annotations(
                r ->
                    "+"
                        + r
                        + "\u0014\u0014\u0000"
                        + (r == 1 ? onset + "\u0014bad\u0014\u0000" : ""));
    try (Recording recording = open(file)) {
      assertThat(recording.channels().get(0).sampleCount()).isEqualTo(40);
      assertThat(recording.annotations()).isEmpty();
      assertThat(recording.findings())
          .anyMatch(
              f ->
                  f.code() == FindingCode.ANNOTATION_UNREADABLE
                      && f.text().contains("bytes 933 to "));
    }
  }

  @Test
  void row12DuplicateLabelsAndSeveralAnnotationSignalsAreRead() throws IOException {
    EdfFile file =
        EdfFile.edf()
            .reserved("EDF+C")
            .signal("EMG", "uV", 10)
            .annotations(r -> "+" + r + "\u0014\u0014\u0000+" + r + ".5\u0014x\u0014\u0000")
            .signal("EMG", "uV", 10)
            .annotations(r -> "+" + r + "\u0014\u0014\u0000+" + r + ".5\u0014x\u0014\u0000");
    try (Recording recording = open(file)) {
      assertThat(recording.channels()).extracting(Channel::number).containsExactly(1, 3);
      assertThat(recording.annotations()).hasSize(8);
      assertThat(codes(recording)).contains(FindingCode.DUPLICATE_LABEL);
      assertThat(samples(recording, 1)[7]).isCloseTo(0.1 * stored(3, 7), within(1e-9));
    }
  }

  @ParameterizedTest
  @CsvSource({"-1,4,4", "9,4,4", "2,4,4", "0,4,4"})
  void row13AWrongCountOfRecordsGivesWayToTheRecordsThatAreThere(
      String declared, int there, int used) throws IOException {
    try (Recording recording =
        open(EdfFile.edf().records(declared, there).signal("EMG", "uV", 10))) {
      assertThat(recording.channels().get(0).sampleCount()).isEqualTo(10L * used);
      assertThat(codes(recording)).containsExactly(FindingCode.RECORD_COUNT);
    }
  }

  @Test
  void row13ACutRecordIsLeftOutAndItsBytesAreStated() throws IOException {
    try (Recording recording = open(EdfFile.edf().signal("EMG", "uV", 10).cut(7))) {
      assertThat(recording.channels().get(0).sampleCount()).isEqualTo(30);
      assertThat(codes(recording))
          .containsExactly(FindingCode.RECORD_COUNT, FindingCode.TRAILING_BYTES);
      assertThat(recording.findings().get(1).text()).startsWith("13 bytes");
    }
  }

  @ParameterizedTest
  @ValueSource(ints = {1, 19, 25})
  void row13TrailingBytesAreLeftOutAndStated(int bytes) throws IOException {
    try (Recording recording = open(EdfFile.edf().signal("EMG", "uV", 10).tail(new byte[bytes]))) {
      assertThat(recording.channels().get(0).sampleCount()).isEqualTo(40);
      assertThat(codes(recording)).containsExactly(FindingCode.TRAILING_BYTES);
      assertThat(recording.findings().get(0).text()).startsWith(bytes + " bytes");
    }
  }

  @Test
  void row13RecordsWithoutTheirTimeAreNoRecords() throws IOException {
    EdfFile file =
        EdfFile.edf()
            .reserved("EDF+C")
            .records("3", 5)
            .signal("EMG", "uV", 10)
            .annotations(r -> r < 4 ? "+" + r + "\u0014\u0014\u0000" : "junk");
    try (Recording recording = open(file)) {
      assertThat(recording.channels().get(0).sampleCount()).isEqualTo(40);
      assertThat(codes(recording))
          .containsExactly(FindingCode.RECORD_COUNT, FindingCode.TRAILING_BYTES);
    }
  }

  @ParameterizedTest
  @CsvSource({
    "5,5,-32768,32767",
    "-5,5,7,7",
    "-5,5,7,6",
    "a,5,-32768,32767",
    "-5,NaN,-32768,32767",
    "-5,5,'',32767"
  })
  void row14AChannelThatCannotBeScaledIsRefusedAndTheOthersAreRead(
      String low, String high, String digitalLow, String digitalHigh) throws IOException {
    EdfFile file =
        EdfFile.edf()
            .signal("bad", "uV", 10)
            .range(low, high, digitalLow, digitalHigh)
            .signal("good", "uV", 20);
    try (Recording recording = open(file)) {
      assertThat(recording.channels()).extracting(Channel::number).containsExactly(2);
      assertThat(codes(recording)).containsExactly(FindingCode.CHANNEL_REFUSED);
      assertThat(samples(recording, 0)[33]).isCloseTo(0.1 * stored(2, 33), within(1e-9));
    }
  }

  @Test
  void row15APhysicalMaximumBelowTheMinimumIsANegativeGain() throws IOException {
    try (Recording recording =
        open(EdfFile.edf().signal("EMG", "uV", 10).range("3276.7", "-3276.8", "-32768", "32767"))) {
      Channel channel = recording.channels().get(0);
      assertThat(samples(recording, 0)[5]).isCloseTo(-0.1 * stored(1, 5) - 0.1, within(1e-9));
      assertThat(channel.lowRailUv()).isEqualTo(-3276.8);
      assertThat(channel.highRailUv()).isEqualTo(3276.7);
      assertThat(channel.resolutionUv()).isCloseTo(0.1, within(1e-12));
      assertThat(codes(recording)).containsExactly(FindingCode.INVERTED_RANGE);
    }
  }

  @Test
  void row16ChannelsKeepTheirOwnRates() throws IOException {
    try (Recording recording =
        open(EdfFile.edf().signal("A", "uV", 7).signal("B", "uV", 50_000).signal("C", "uV", 1))) {
      assertThat(recording.channels())
          .extracting(c -> c.timeBase().samplingRateHz())
          .containsExactly(7.0, 50_000.0, 1.0);
      assertThat(recording.channels())
          .extracting(Channel::sampleCount)
          .containsExactly(28L, 200_000L, 4L);
      for (int c = 0; c < 3; c++) {
        double[] all = samples(recording, c);
        for (int k = 0; k < all.length; k += 1 + all.length / 1000) {
          assertThat(all[k]).isCloseTo(0.1 * stored(c + 1, k), within(1e-9));
        }
      }
    }
  }

  @Test
  void row17AFileOfMoreThanFourGigabytesIsReadToItsEnd() throws IOException {
    int perRecord = 25_000;
    long records = 90_000;
    Path path =
        EdfFile.edf()
            .records(Long.toString(records), 0)
            .duration("0.5")
            .signal("EMG", "uV", perRecord)
            .write(folder, "large.edf");
    long last = 512 + records * perRecord * 2 - 2;
    try (FileChannel file = FileChannel.open(path, StandardOpenOption.WRITE)) {
      file.write(ByteBuffer.wrap(new byte[] {(byte) 0xD2, 0x04}), last);
    }
    try (Recording recording = new EdfReader().open(path, ReadOptions.defaults())) {
      Channel channel = recording.channels().get(0);
      assertThat(channel.sampleCount()).isEqualTo(2_250_000_000L);
      double[] end = new double[100_000];
      recording.read(channel, channel.sampleCount() - end.length, end, 0, end.length);
      assertThat(end[end.length - 1]).isCloseTo(123.4, within(1e-9));
      assertThat(end[end.length - 2]).isCloseTo(0, within(1e-9));
      assertThat(codes(recording)).isEmpty();
    }
  }

  @ParameterizedTest
  @ValueSource(strings = {"32.13.26", "XX.XX.XX", "", "24/11/26"})
  void row18AnInvalidDateIsAFindingOnly(String date) throws IOException {
    try (Recording recording = open(EdfFile.edf().date(date).signal("EMG", "uV", 10))) {
      assertThat(recording.findStart()).isEmpty();
      assertThat(codes(recording)).containsExactly(FindingCode.INVALID_DATE);
    }
  }

  @Test
  void row19OrdinarySignalsWithRecordsOfNoDurationAreRefused() {
    assertThatThrownBy(() -> open(EdfFile.edf().duration("0").signal("EMG", "uV", 10)))
        .isInstanceOf(RecordingFormatException.class)
        .hasMessageContaining("case.edf: byte 244, duration of a record");
  }

  @Test
  void row19AnnotationsAloneMayHaveRecordsOfNoDuration() throws IOException {
    EdfFile file =
        EdfFile.edf()
            .reserved("EDF+C")
            .duration("0")
            .annotations(r -> "+0\u0014\u0014\u0000+" + r + "\u0014x\u0014\u0000");
    try (Recording recording = open(file)) {
      assertThat(recording.channels()).isEmpty();
      assertThat(recording.annotations()).hasSize(4);
    }
  }

  @Test
  @Timeout(10)
  void row26ManyAnnotationsTakeLinearTime() throws IOException {
    int count = 200_000;
    EdfFile file =
        EdfFile.edf()
            .reserved("EDF+C")
            .records("", count / 4)
            .signal("EMG", "uV", 1)
            .annotations(
                r ->
                    "+"
                        + r
                        + "\u0014\u0014\u0000"
                        + ("+" + r + ".5\u0014stim\u0014\u0000").repeat(4));
    try (Recording recording = open(file)) {
      assertThat(recording.annotations()).hasSize(count);
    }
  }

  @Test
  void row27HostileTextInAnnotationsIsDataOnly() throws IOException {
    String text = "<script>alert('x')</script>=1+1\u0007";
    EdfFile file =
        EdfFile.edf()
            .reserved("EDF+C")
            .signal("=cmd|' /C'!A0", "uV", 10)
            .annotations(
                r -> "+" + r + "\u0014\u0014\u0000+" + r + "\u0014" + text + "\u0014\u0000");
    try (Recording recording = open(file)) {
      assertThat(recording.annotations().get(0).text()).isEqualTo(text);
      assertThat(recording.channels().get(0).label()).isEqualTo("=cmd|' /C'!A0");
    }
  }

  @Test
  void aChannelWithoutSamplesIsRefusedAndTheOthersAreRead() throws IOException {
    try (Recording recording =
        open(EdfFile.edf().signal("none", "uV", 0).signal("EMG", "uV", 10))) {
      assertThat(recording.channels()).extracting(Channel::number).containsExactly(2);
      assertThat(codes(recording)).containsExactly(FindingCode.CHANNEL_REFUSED);
    }
  }

  @Test
  void anUnreadableFieldIsNamedWithItsByte() throws IOException {
    byte[] bytes = EdfFile.edf().signal("EMG", "uV", 10).bytes();
    bytes[236] = 'x';
    Path path = Files.write(folder.resolve("bad.edf"), bytes);
    assertThatThrownBy(() -> new EdfReader().open(path, ReadOptions.defaults()))
        .isInstanceOf(RecordingFormatException.class)
        .hasMessageContaining("bad.edf: byte 236, number of records: expected a whole number");
  }

  @Test
  void theDateThatStandsForAnUnknownOneIsNoDate() throws IOException {
    byte[] bytes = EdfFile.edf().reserved("EDF+C").date("01.01.85").signal("EMG", "uV", 10).bytes();
    byte[] unknown = "Startdate X X X X          ".getBytes(StandardCharsets.US_ASCII);
    System.arraycopy(unknown, 0, bytes, 88, unknown.length);
    Path path = Files.write(folder.resolve("anonymous.edf"), bytes);
    try (Recording recording = new EdfReader().open(path, ReadOptions.defaults())) {
      assertThat(recording.findStart()).isEmpty();
      assertThat(codes(recording)).doesNotContain(FindingCode.INVALID_DATE);
    }
  }

  @Test
  @Timeout(10)
  void row26MoreAnnotationsThanAnyoneCanReadAreCountedAndLeftOut() throws IOException {
    byte[] many = "+0\u0014\u0014\u0000+0\u0014".getBytes(StandardCharsets.US_ASCII);
    byte[] record = java.util.Arrays.copyOf(many, 4_000_000);
    for (int k = many.length; k < record.length - 2; k += 2) {
      record[k] = 'a';
      record[k + 1] = 20;
    }
    EdfFile file = EdfFile.edf().reserved("EDF+C").records("1", 0).signal("EMG", "uV", 1);
    byte[] bytes = file.annotations(r -> "", record.length / 2).tail(new byte[2]).bytes();
    Path path = folder.resolve("many.edf");
    Files.write(path, bytes);
    Files.write(path, record, StandardOpenOption.APPEND);
    try (Recording recording = new EdfReader().open(path, ReadOptions.defaults())) {
      assertThat(recording.annotations()).hasSize(EdfAnnotations.MOST_ANNOTATIONS);
      assertThat(recording.findings())
          .filteredOn(f -> f.code() == FindingCode.ANNOTATION_UNREADABLE)
          .singleElement()
          .satisfies(f -> assertThat(f.text()).contains("1000000"));
    }
  }

  @Test
  @Timeout(20)
  void shortRecordsAreReadManyAtATime() throws IOException {
    EdfFile file =
        EdfFile.edf()
            .reserved("EDF+C")
            .duration("0.0002")
            .records("", 300_000)
            .signal("EMG", "uV", 10)
            .annotations(r -> "+" + java.math.BigDecimal.valueOf(2L * r, 4) + "\u0014\u0014\u0000");
    Path path = file.write(folder, "short.edf");
    try (Recording recording = new EdfReader().open(path, ReadOptions.defaults())) {
      assertThat(recording.channels().get(0).segments()).hasSize(1);
      assertThat(recording.channels().get(0).timeBase()).isEqualTo(TimeBase.ofHz(50_000));
    }
  }
}
