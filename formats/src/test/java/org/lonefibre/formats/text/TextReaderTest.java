package org.lonefibre.formats.text;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.function.IntFunction;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.lonefibre.formats.RecordingReaders;
import org.lonefibre.formats.SharedFolder;
import org.lonefibre.formats.reader.ReadOptions;
import org.lonefibre.signal.recording.Channel;
import org.lonefibre.signal.recording.Channel.Calibration;
import org.lonefibre.signal.recording.Finding;
import org.lonefibre.signal.recording.FindingCode;
import org.lonefibre.signal.recording.Recording;
import org.lonefibre.signal.recording.RecordingFormatException;
import org.lonefibre.signal.recording.Segment;
import org.lonefibre.signal.recording.TimeBase;

/** Text as laboratories export it; rows 10, 24 and 27 of the list of cases are named. */
class TextReaderTest {

  private static final ReadOptions AT_50_KHZ = ReadOptions.defaults().withSamplingRateHz(50_000);

  @TempDir Path folder;

  private Recording open(String text, ReadOptions options, Charset charset) throws IOException {
    Path file = Files.write(folder.resolve("case.txt"), text.getBytes(charset));
    return RecordingReaders.open(file, options);
  }

  private Recording open(String text) throws IOException {
    return open(text, ReadOptions.defaults(), StandardCharsets.UTF_8);
  }

  private Recording open(String text, ReadOptions options) throws IOException {
    return open(text, options, StandardCharsets.UTF_8);
  }

  private static double[] samples(Recording recording, int index) throws IOException {
    Channel channel = recording.channels().get(index);
    double[] samples = new double[Math.toIntExact(channel.sampleCount())];
    recording.read(channel, 0, samples, 0, samples.length);
    return samples;
  }

  private static String rows(int count, IntFunction<String> row) {
    StringBuilder text = new StringBuilder();
    for (int k = 0; k < count; k++) {
      text.append(row.apply(k)).append('\n');
    }
    return text.toString();
  }

  private static String fixed(double value, int digits) {
    return String.format(Locale.ROOT, "%." + digits + "f", value);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {"','|.", "';'|.", "';'|,", "tab|.", "tab|,", "space|.", "space|,", "spaces|."})
  void row24DelimitersAndDecimalMarksAreDetected(String name, char mark) throws IOException {
    String delimiter =
        switch (name) {
          case "tab" -> "\t";
          case "space" -> " ";
          case "spaces" -> "   ";
          default -> name;
        };
    String text =
        "t"
            + delimiter
            + "EMG_mV\n"
            + rows(
                300,
                k -> (fixed(k * 2e-5, 5) + delimiter + fixed(k % 7 - 3.25, 3)).replace('.', mark));
    try (Recording recording = open(text)) {
      assertThat(recording.format()).isEqualTo("text");
      assertThat(recording.channels()).hasSize(1);
      Channel channel = recording.channels().get(0);
      assertThat(channel.timeBase()).isEqualTo(TimeBase.ofHz(50_000));
      assertThat(channel.calibration()).isEqualTo(Calibration.MICROVOLT);
      assertThat(samples(recording, 0)[8]).isEqualTo(-2_250);
    }
  }

  @ParameterizedTest
  @CsvSource({
    "EMG (mV),mV,1000",
    "EMG [uV],uV,1",
    "sweep0_mV,mV,1000",
    "EMG µV,µV,1",
    "EMG(V),V,1e6",
    "mV,mV,1000",
    "EMG_nV,nV,0.001"
  })
  void theUnitIsTakenFromTheHeader(String label, String unit, double factor) throws IOException {
    try (Recording recording = open(label + "\n1.5\n-2.5\n3\n", AT_50_KHZ)) {
      Channel channel = recording.channels().get(0);
      assertThat(channel.label()).isEqualTo(label);
      assertThat(channel.unit()).isEqualTo(unit);
      assertThat(samples(recording, 0)).containsExactly(1.5 * factor, -2.5 * factor, 3 * factor);
      assertThat(recording.findings()).isEmpty();
    }
  }

  @Test
  void unitsMayStandInALineOfTheirOwn() throws IOException {
    try (Recording recording =
        open("Time;EMG\nms;mV\n" + rows(50, k -> fixed(k * 0.02, 2) + ";1"))) {
      assertThat(recording.channels().get(0).timeBase()).isEqualTo(TimeBase.ofHz(50_000));
      assertThat(samples(recording, 0)[0]).isEqualTo(1000);
    }
  }

  @Test
  void row10AHeaderInLatin1IsReadAndFlagged() throws IOException {
    try (Recording recording =
        open("EMG (µV)\n1\n2\n3\n", AT_50_KHZ, StandardCharsets.ISO_8859_1)) {
      assertThat(recording.channels().get(0).calibration()).isEqualTo(Calibration.MICROVOLT);
      assertThat(recording.findings())
          .extracting(Finding::code)
          .containsExactly(FindingCode.TEXT_ENCODING);
    }
  }

  @Test
  void aByteOrderMarkCommentsAndEmptyLinesAreLeftOut() throws IOException {
    String text = "\uFEFF# made by a machine\n\nEMG (uV)\r\n1\r\n\r\n# note\r\n2\r\n3\r\n\r\n";
    try (Recording recording = open(text, AT_50_KHZ)) {
      assertThat(recording.channels().get(0).label()).isEqualTo("EMG (uV)");
      assertThat(samples(recording, 0)).containsExactly(1, 2, 3);
    }
  }

  @Test
  void aQuotedLabelMayHoldTheDelimiter() throws IOException {
    try (Recording recording =
        open("\"time, s\",\"EMG, left (mV)\"\n" + rows(50, k -> fixed(k * 1e-4, 4) + ",2"))) {
      assertThat(recording.channels().get(0).label()).isEqualTo("EMG, left (mV)");
      assertThat(recording.channels().get(0).timeBase()).isEqualTo(TimeBase.ofHz(10_000));
    }
  }

  @ParameterizedTest
  @CsvSource({
    "1,390625,8,9",
    "1,390625,8,6",
    "1,50000,1,5",
    "1,46875,2,8",
    "1,100000,3,9",
    "1,44100,1,7",
    "1,4000,1,5",
    "1000,390625,8,6",
    "1000000,20000,1,0",
    "1,1201,2,7"
  })
  void theRateIsExactWhereThePrintedTimesAllowIt(long scale, long samples, long seconds, int digits)
      throws IOException {
    TimeBase timeBase = new TimeBase(samples, seconds);
    String unit = scale == 1 ? "s" : scale == 1000 ? "ms" : "us";
    String text =
        "time ("
            + unit
            + "),EMG (uV)\n"
            + rows(60_000, k -> fixed(timeBase.timeS(k) * scale, digits) + "," + k % 9);
    try (Recording recording = open(text)) {
      assertThat(recording.channels().get(0).timeBase()).isEqualTo(timeBase);
      assertThat(recording.channels().get(0).segments()).containsExactly(new Segment(0, 60_000, 0));
    }
  }

  @Test
  void aJumpOfTimeIsAGap() throws IOException {
    String text = rows(2_000, k -> fixed(k * 2e-5 + (k < 700 ? 0 : 0.5), 5) + " 1.5");
    try (Recording recording = open(text)) {
      assertThat(recording.channels().get(0).segments()).hasSize(2);
      Segment second = recording.channels().get(0).segments().get(1);
      assertThat(second.firstSample()).isEqualTo(700);
      assertThat(second.startS()).isCloseTo(0.514, within(1e-9));
    }
  }

  @Test
  void oneSampleLeftOutIsAGapToo() throws IOException {
    String text = rows(2_000, k -> fixed((k < 700 ? k : k + 1) * 2e-5, 5) + " 1.5");
    try (Recording recording = open(text)) {
      assertThat(recording.channels().get(0).segments()).hasSize(2);
    }
  }

  @Test
  void unevenTimesAreRefusedWithTheirLine() {
    String text = "t,x\n" + rows(2_000, k -> fixed(k * 2e-5 + (k >= 700 ? 8e-6 : 0), 7) + ",1.5");
    assertThatThrownBy(() -> open(text))
        .isInstanceOf(RecordingFormatException.class)
        .hasMessageContaining("case.txt: line 702, time");
  }

  @Test
  void timeThatStandsStillOrRunsBackIsRefusedWithItsLine() {
    assertThatThrownBy(
            () -> open("t,x\n" + rows(500, k -> fixed(k == 300 ? 0 : k * 2e-5, 5) + ",1")))
        .isInstanceOf(RecordingFormatException.class)
        .hasMessageContaining("line 302, time");
  }

  @Test
  void withoutTimesTheRateHasToBeTold() throws IOException {
    assertThatThrownBy(() -> open("EMG (uV)\n1\n5\n2\n"))
        .isInstanceOf(RecordingFormatException.class)
        .hasMessageContaining("--sampling-rate-hz");
    try (Recording recording = open("EMG (uV)\n1\n5\n2\n", AT_50_KHZ)) {
      assertThat(recording.channels().get(0).timeBase()).isEqualTo(TimeBase.ofHz(50_000));
    }
  }

  @Test
  void aRateThatContradictsTheTimesIsRefused() {
    assertThatThrownBy(() -> open(rows(900, k -> fixed(k * 1e-3, 3) + " 1"), AT_50_KHZ))
        .isInstanceOf(RecordingFormatException.class)
        .hasMessageContaining("50000.0 Hz");
  }

  @ParameterizedTest
  @ValueSource(strings = {"sample,EMG_uV\n", "index,EMG_uV\n", ""})
  void runningNumbersAreNoSignalAndTheirJumpsAreGaps(String header) throws IOException {
    String text = header + rows(1_000, k -> (k < 600 ? k : k + 50) + "," + (k % 13 - 6.5));
    try (Recording recording = open(text, AT_50_KHZ)) {
      assertThat(recording.channels()).hasSize(1);
      assertThat(recording.channels().get(0).segments())
          .containsExactly(new Segment(0, 600, 0), new Segment(600, 400, 0.013));
    }
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "0.5,x|a number, found x",
        "0.5|2 numbers, found 1",
        "0.5,1,2|2 numbers, found 3",
        "0.5,|a number, found nothing",
        "0.5,NaN|a number, found NaN",
        "0.5,1e999|a number, found 1e999",
        "0.5,1.2.3|a number, found 1.2.3",
        "0.5,0x10|a number, found 0x10",
        "0.5,1d|a number, found 1d"
      })
  void row24ABrokenLineInTheMiddleIsNamedWithItsNumber(String broken, String expected) {
    String text = "t,x\n# note\n" + rows(500, k -> k == 300 ? broken : fixed(k * 1e-3, 3) + ",1");
    assertThatThrownBy(() -> open(text))
        .isInstanceOf(RecordingFormatException.class)
        .hasMessageContaining("case.txt: line 303")
        .hasMessageContaining(expected);
  }

  @Test
  void pairsOfWholeNumbersThatMayBeDecimalCommasAreNotGuessed() {
    assertThatThrownBy(() -> open("1,532\n0,221\n-4,870\n", AT_50_KHZ))
        .isInstanceOf(RecordingFormatException.class)
        .hasMessageContaining("decimal comma");
  }

  @Test
  void row27MarkupAndFormulaInALabelAreDataOnly() throws IOException {
    try (Recording recording = open("=cmd()|<script>\n1\n5\n2\n", AT_50_KHZ)) {
      assertThat(recording.channels().get(0).label()).isEqualTo("=cmd()|<script>");
    }
  }

  @Test
  @Tag("property")
  void everyNumberIsReadAsTheJdkReadsIt() {
    java.util.Random random = new java.util.Random(11);
    DecimalText number = new DecimalText('.');
    for (int k = 0; k < 200_000; k++) {
      String text =
          switch (k % 4) {
            case 0 -> fixed(random.nextGaussian() * 1000, random.nextInt(12));
            case 1 -> Double.toString(Double.longBitsToDouble(random.nextLong()));
            case 2 -> random.nextLong() + "." + Math.abs((long) random.nextInt());
            default -> random.nextInt(99_999) + "e" + (random.nextInt(60) - 30);
          };
      boolean finite = Double.isFinite(Double.parseDouble(text));
      assertThat(number.read(text)).as(text).isEqualTo(finite);
      if (finite) {
        assertThat(number.value()).as(text).isEqualTo(Double.parseDouble(text));
      }
    }
  }

  @ParameterizedTest
  @CsvSource({"emg_healthy.txt,50860,1", "emg_neuropathy.txt,147858,13"})
  @Tag("crossCheck")
  void realRecordingsAreReadWithTheirGaps(String name, long samples, int segments)
      throws IOException {
    Path file = SharedFolder.data().resolve("needle-emg-4khz").resolve(name);
    try (Recording recording = RecordingReaders.open(file, ReadOptions.defaults())) {
      Channel channel = recording.channels().get(0);
      assertThat(channel.timeBase()).isEqualTo(TimeBase.ofHz(4_000));
      assertThat(channel.sampleCount()).isEqualTo(samples);
      assertThat(channel.calibration()).isEqualTo(Calibration.NONE);
      assertThat(channel.segments().size()).isGreaterThanOrEqualTo(segments == 1 ? 1 : 5);
      assertThat(samples(recording, 0)[0]).isIn(-0.0333, 0.09);
    }
  }

  @ParameterizedTest
  @CsvSource({"emg_healthy_corrupt.txt,639", "emg_myopathy.txt,64468"})
  @Tag("crossCheck")
  void aRealRecordingWithABrokenLineIsRefusedByItsNumber(String name, int line) {
    Path file = SharedFolder.data().resolve("needle-emg-4khz").resolve(name);
    assertThatThrownBy(() -> RecordingReaders.open(file, ReadOptions.defaults()))
        .isInstanceOf(RecordingFormatException.class)
        .hasMessageContaining(name + ": line " + line + ", column 2: expected a number");
  }

  @Test
  @Tag("crossCheck")
  void evokedSweepsAreReadWithTheRateThatIsTold() throws IOException {
    Path file = SharedFolder.data().resolve("evoked-20khz/evoked_20kHz.csv");
    try (Recording recording =
        RecordingReaders.open(file, ReadOptions.defaults().withSamplingRateHz(20_000))) {
      assertThat(recording.channels())
          .extracting(Channel::label)
          .containsExactly("sweep0_mV", "sweep1_mV", "sweep2_mV");
      assertThat(recording.channels().get(0).sampleCount()).isEqualTo(102_000);
      assertThat(samples(recording, 0)[1]).isEqualTo(-77_667.2, within(1e-9));
    }
  }

  @ParameterizedTest
  @ValueSource(strings = {";", "\t", " "})
  void row24AFirstRowOfZerosDoesNotHideTheDecimalComma(String delimiter) throws IOException {
    String text =
        rows(
            400,
            k -> k == 0 ? "0" + delimiter + "0" : commas(fixed(k * 2e-5, 5) + delimiter + "0.5"));
    try (Recording recording = open(text)) {
      assertThat(recording.channels()).hasSize(1);
      assertThat(recording.channels().get(0).timeBase()).isEqualTo(TimeBase.ofHz(50_000));
      assertThat(samples(recording, 0)).startsWith(0, 0.5, 0.5);
    }
  }

  private static String commas(String text) {
    return text.replace('.', ',');
  }

  @ParameterizedTest
  @CsvSource({"0.000 -0.03+0.1", "0.000", "0.000 1 2"})
  void row24ABrokenFirstLineIsNoHeader(String broken) {
    String text = rows(400, k -> k == 0 ? broken : fixed(k * 1e-3, 3) + " 0.5");
    assertThatThrownBy(() -> open(text))
        .isInstanceOf(RecordingFormatException.class)
        .hasMessageContaining("case.txt: line 1");
  }

  @ParameterizedTest
  @ValueSource(strings = {"N. medianus (mV)", "T_left_uV", "no 2 [mV]", "n_mV"})
  void aLabelWithAUnitOfVoltageIsASignalWhateverItsFirstLetter(String label) throws IOException {
    try (Recording recording =
        open("time," + label + "\n" + rows(90, k -> fixed(k * 1e-4, 4) + "," + k % 5))) {
      assertThat(recording.channels()).extracting(Channel::label).containsExactly(label);
      assertThat(recording.channels().get(0).calibration()).isEqualTo(Calibration.MICROVOLT);
    }
  }

  @ParameterizedTest
  @CsvSource({"0.02,2", "20,0", "0.00002,5"})
  void theRateThatIsToldSaysInWhichUnitTimesAreWritten(double step, int digits) throws IOException {
    String text = "time,EMG_mV\n" + rows(300, k -> fixed(k * step, digits) + "," + k % 5);
    try (Recording recording = open(text, AT_50_KHZ)) {
      assertThat(recording.channels().get(0).timeBase()).isEqualTo(TimeBase.ofHz(50_000));
      assertThat(recording.channels().get(0).segments()).hasSize(1);
    }
  }

  @Test
  void linesAboutTheRecordingAboveTheNamesOfTheColumnsArePassedOver() throws IOException {
    String text =
        "Exported by: a machine\nDate;25.11.2026\n\nTime;EMG left\n[ms];[mV]\n"
            + rows(90, k -> commas(fixed(k * 0.02, 2) + ";" + (k % 5 - 1.5)));
    try (Recording recording = open(text)) {
      Channel channel = recording.channels().get(0);
      assertThat(channel.label()).isEqualTo("EMG left");
      assertThat(channel.timeBase()).isEqualTo(TimeBase.ofHz(50_000));
      assertThat(samples(recording, 0)).startsWith(-1_500, -500);
    }
  }

  @Test
  void aHeaderThatDoesNotNameEveryColumnIsRefused() {
    assertThatThrownBy(() -> open("Time ms EMG mV\n" + rows(90, k -> k * 2 + " " + k % 5)))
        .isInstanceOf(RecordingFormatException.class);
  }

  @Test
  void aTableOfManyColumnsIsRecognised() throws IOException {
    String head = "time (s)" + rows(400, k -> ",channel number " + k + " (mV)").replace("\n", "");
    String text = head + "\n" + rows(40, k -> fixed(k * 1e-4, 4) + ",0.125".repeat(400));
    try (Recording recording = open(text)) {
      assertThat(recording.channels()).hasSize(400);
    }
  }

  @ParameterizedTest
  @ValueSource(strings = {"UTF-16LE", "UTF-16BE"})
  void textInUtf16IsReadWhereItsMarkSaysSo(String charset) throws IOException {
    String text = "\uFEFFtime\tEMG (\u00b5V)\r\n" + rows(9_000, k -> fixed(k * 1e-4, 4) + "\t2.5");
    try (Recording recording = open(text, ReadOptions.defaults(), Charset.forName(charset))) {
      assertThat(recording.channels().get(0).unit()).isEqualTo("\u00b5V");
      assertThat(recording.channels().get(0).sampleCount()).isEqualTo(9_000);
      assertThat(recording.findings()).isEmpty();
    }
  }
}
