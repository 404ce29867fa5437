package org.lonefibre.formats.reader;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.lonefibre.signal.recording.Channel;
import org.lonefibre.signal.recording.Finding;
import org.lonefibre.signal.recording.FindingCode;
import org.lonefibre.signal.recording.Recording;
import org.lonefibre.signal.recording.RecordingFormatException;
import org.lonefibre.signal.recording.Segment;
import org.lonefibre.signal.recording.TimeBase;

/** What every reader of recordings must do. A reader passes by making the files asked for here. */
@Tag("contract")
public abstract class RecordingReaderContract {

  /** Markup, a formula and a quote, as far as a label of this format can hold them. */
  protected static final String HOSTILE = "=<b>1|&'x";

  @TempDir protected Path folder;

  protected abstract RecordingReader reader();

  /** What the user must say for the files of this format to be read. */
  protected ReadOptions options() {
    return ReadOptions.defaults();
  }

  /** Whether files of this format tell what they are. */
  protected boolean isToldByContent() {
    return true;
  }

  /** Two channels or more at 48,828.125 Hz, at least 10,000 samples each. */
  protected abstract Path ordinaryFile() throws IOException;

  /** A file with one gap or more; its channels as in the ordinary one. */
  protected abstract Path fileWithGaps() throws IOException;

  /** A file whose first label is {@link #HOSTILE}; null if the format holds no labels. */
  protected abstract @Nullable Path fileWithHostileLabel() throws IOException;

  /** A file whose channel has no unit. */
  protected abstract Path fileWithoutUnit() throws IOException;

  /** A short file that claims to be huge. */
  protected abstract Path fileThatClaimsMuch() throws IOException;

  private Recording open(Path file) throws IOException {
    return reader().open(file, options());
  }

  private static double[] whole(Recording recording, Channel channel) throws IOException {
    double[] samples = new double[Math.toIntExact(channel.sampleCount())];
    recording.read(channel, 0, samples, 0, samples.length);
    return samples;
  }

  @Test
  void aFileIsRecognisedByItsContentWhateverItsName() throws IOException {
    assumeTrue(isToldByContent(), "skipped: nothing in such a file tells what it is");
    List<Path> files = new ArrayList<>(List.of(ordinaryFile(), fileWithGaps()));
    Optional.ofNullable(fileWithHostileLabel()).ifPresent(files::add);
    for (Path file : files) {
      byte[] bytes = Files.readAllBytes(file);
      byte[] head = Arrays.copyOf(bytes, Math.min(bytes.length, RecordingReader.HEAD_BYTES));
      assertThat(reader().recognises(head)).isTrue();
      Path renamed = Files.copy(file, folder.resolve("renamed-" + file.getFileName() + ".xyz"));
      try (Recording recording = open(renamed)) {
        assertThat(recording.channels()).isNotEmpty();
      }
    }
  }

  @Test
  void anEmptyFileAndRandomBytesAreNotRecognised() {
    assertThat(reader().recognises(new byte[0])).isFalse();
    byte[] noise = new byte[RecordingReader.HEAD_BYTES];
    new Random(1).nextBytes(noise);
    assertThat(reader().recognises(noise)).isFalse();
  }

  @Test
  void readingInBlocksGivesTheSameAsReadingAtOnce() throws IOException {
    Random random = new Random(20);
    try (Recording recording = open(ordinaryFile())) {
      for (Channel channel : recording.channels()) {
        double[] whole = whole(recording, channel);
        double[] blocks = new double[whole.length];
        int at = 0;
        while (at < blocks.length) {
          int length = Math.min(blocks.length - at, random.nextInt(3000));
          recording.read(channel, at, blocks, at, length);
          at += length;
        }
        assertThat(blocks).isEqualTo(whole);
        for (int k = 0; k < 50; k++) {
          int first = random.nextInt(whole.length);
          double[] one = {-1, -1, -1};
          recording.read(channel, first, one, 1, 1);
          assertThat(one).containsExactly(-1, whole[first], -1);
        }
      }
    }
  }

  @Test
  void samplesOutsideTheChannelOrTheArrayAreRefused() throws IOException {
    try (Recording recording = open(ordinaryFile())) {
      Channel channel = recording.channels().get(0);
      long n = channel.sampleCount();
      double[] room = new double[10];
      List<long[]> wrong =
          List.of(
              new long[] {-1, 0, 1},
              new long[] {n, 0, 1},
              new long[] {n - 5, 0, 6},
              new long[] {Long.MAX_VALUE, 0, 5},
              new long[] {0, -1, 1},
              new long[] {0, 0, -1},
              new long[] {0, 8, 3},
              new long[] {0, Integer.MAX_VALUE, 5});
      for (long[] w : wrong) {
        assertThatThrownBy(() -> recording.read(channel, w[0], room, (int) w[1], (int) w[2]))
            .isInstanceOf(IllegalArgumentException.class);
      }
      recording.read(channel, n, room, 10, 0);
    }
  }

  @Test
  void aChannelThatIsNotOfThisRecordingIsRefusedAndLiesAboutLengthAreNotBelieved()
      throws IOException {
    try (Recording recording = open(ordinaryFile())) {
      Channel real = recording.channels().get(0);
      Channel unknown = renumbered(real, 999, real.sampleCount());
      Channel longer = renumbered(real, real.number(), real.sampleCount() + 10);
      double[] room = new double[10];
      assertThatThrownBy(() -> recording.read(unknown, 0, room, 0, 1))
          .isInstanceOf(IllegalArgumentException.class);
      assertThatThrownBy(() -> recording.read(longer, real.sampleCount(), room, 0, 10))
          .isInstanceOf(IllegalArgumentException.class);
    }
  }

  private static Channel renumbered(Channel c, int number, long samples) {
    return new Channel(
        number,
        c.label(),
        c.unit(),
        c.calibration(),
        c.timeBase(),
        samples,
        c.segments(),
        c.lowRailUv(),
        c.highRailUv(),
        c.resolutionUv(),
        c.prefilter());
  }

  @Test
  void segmentsCoverAllSamplesInOrderAndNeverOverlapInTime() throws IOException {
    for (Path file : List.of(ordinaryFile(), fileWithGaps())) {
      try (Recording recording = open(file)) {
        for (Channel channel : recording.channels()) {
          long next = 0;
          double endS = 0;
          for (Segment segment : channel.segments()) {
            assertThat(segment.firstSample()).isEqualTo(next);
            assertThat(segment.startS()).isGreaterThan(endS - 0.5 * channel.timeBase().timeS(1));
            next = segment.endSample();
            endS = segment.startS() + channel.timeBase().timeS(segment.sampleCount());
          }
          assertThat(next).isEqualTo(channel.sampleCount());
          assertThat(channel.segments().get(0).startS()).isZero();
        }
      }
    }
  }

  @Test
  void aGapBeginsANewSegmentInEveryChannel() throws IOException {
    try (Recording recording = open(fileWithGaps())) {
      for (Channel channel : recording.channels()) {
        assertThat(channel.segments()).hasSizeGreaterThan(1);
      }
    }
  }

  @Test
  void channelsAreNumberedFromOneUpwards() throws IOException {
    try (Recording recording = open(ordinaryFile())) {
      int last = 0;
      for (Channel channel : recording.channels()) {
        assertThat(channel.number()).isGreaterThan(last);
        last = channel.number();
      }
      assertThat(recording.channels().get(0).number()).isEqualTo(1);
    }
  }

  @Test
  void theRateIsExactSoThatTimeNeverDrifts() throws IOException {
    try (Recording recording = open(ordinaryFile())) {
      for (Channel channel : recording.channels()) {
        assertThat(channel.timeBase()).isEqualTo(new TimeBase(390_625, 8));
        assertThat(channel.timeBase().timeS(390_625.0 * 450)).isEqualTo(3600);
      }
    }
  }

  @Test
  void readingFromSeveralThreadsGivesTheSame() throws Exception {
    ExecutorService threads = Executors.newFixedThreadPool(4);
    try (Recording recording = open(ordinaryFile())) {
      List<Callable<Boolean>> tasks = new ArrayList<>();
      for (Channel channel : recording.channels()) {
        double[] expected = whole(recording, channel);
        for (int t = 0; t < 8; t++) {
          int seed = t;
          tasks.add(
              () -> {
                Random random = new Random(seed);
                for (int k = 0; k < 200; k++) {
                  int first = random.nextInt(expected.length - 100);
                  double[] some = new double[100];
                  recording.read(channel, first, some, 0, 100);
                  if (!Arrays.equals(some, Arrays.copyOfRange(expected, first, first + 100))) {
                    return false;
                  }
                }
                return true;
              });
        }
      }
      for (Future<Boolean> result : threads.invokeAll(tasks)) {
        assertThat(result.get()).isTrue();
      }
    } finally {
      threads.shutdown();
    }
  }

  @Test
  void aClosedRecordingSaysSoAndClosingTwiceIsHarmless() throws IOException {
    Recording recording = open(ordinaryFile());
    recording.close();
    recording.close();
    assertThatThrownBy(() -> recording.read(recording.channels().get(0), 0, new double[1], 0, 1))
        .isInstanceOf(IOException.class);
    assertThat(recording.channels()).isNotEmpty();
  }

  @Test
  void aHostileLabelIsDataOnly() throws IOException {
    Path file = fileWithHostileLabel();
    assumeTrue(file != null, "skipped: this format holds no labels");
    try (Recording recording = open(file)) {
      assertThat(recording.channels().get(0).label()).isEqualTo(HOSTILE);
    }
  }

  @Test
  void withoutAUnitNothingIsGuessedUntilTheGainIsTold() throws IOException {
    Path file = fileWithoutUnit();
    double[] raw;
    try (Recording recording = open(file)) {
      Channel channel = recording.channels().get(0);
      assertThat(channel.calibration()).isEqualTo(Channel.Calibration.NONE);
      assertThat(recording.findings()).extracting(Finding::code).contains(FindingCode.UNCALIBRATED);
      raw = whole(recording, channel);
    }
    try (Recording recording = reader().open(file, options().withGainUvPerUnit(2.5))) {
      Channel channel = recording.channels().get(0);
      assertThat(channel.calibration()).isEqualTo(Channel.Calibration.MICROVOLT);
      assertThat(recording.findings())
          .extracting(Finding::code)
          .doesNotContain(FindingCode.UNCALIBRATED);
      double[] told = whole(recording, channel);
      for (int k = 0; k < raw.length; k++) {
        assertThat(told[k]).isCloseTo(2.5 * raw[k], within(1e-9 * Math.abs(raw[k]) + 1e-12));
      }
    }
  }

  @Test
  void aHeaderThatClaimsMuchAllocatesLittle() throws IOException {
    Path file = fileThatClaimsMuch();
    System.gc();
    long before = allocatedBytes();
    try (Recording recording = open(file)) {
      for (Channel channel : recording.channels()) {
        assertThat(channel.sampleCount()).isLessThanOrEqualTo(Files.size(file));
      }
    } catch (RecordingFormatException e) {
      assertThat(e.file()).isEqualTo(String.valueOf(file.getFileName()));
    }
    assertThat(allocatedBytes() - before).isLessThan(32 << 20);
  }

  private static long allocatedBytes() {
    return ((com.sun.management.ThreadMXBean)
            java.lang.management.ManagementFactory.getThreadMXBean())
        .getCurrentThreadAllocatedBytes();
  }

  @Test
  void aFileCutAnywhereIsReadOrRefusedWithItsName() throws IOException {
    byte[] bytes = Files.readAllBytes(ordinaryFile());
    Random random = new Random(7);
    for (int k = 0; k < 100; k++) {
      int length = k < 50 ? random.nextInt(1500) : random.nextInt(bytes.length);
      Path file = Files.write(folder.resolve("cut"), Arrays.copyOf(bytes, length));
      try (Recording recording = open(file)) {
        for (Channel channel : recording.channels()) {
          whole(recording, channel);
        }
      } catch (RecordingFormatException e) {
        assertThat(e.getMessage()).startsWith("cut: ");
      }
    }
  }

  @Test
  void aFileWithAnyByteChangedIsReadOrRefusedWithItsName() throws IOException {
    byte[] bytes = Files.readAllBytes(ordinaryFile());
    Random random = new Random(8);
    for (int k = 0; k < 300; k++) {
      byte[] changed = bytes.clone();
      int changes = 1 + random.nextInt(4);
      for (int c = 0; c < changes; c++) {
        changed[random.nextInt(Math.min(1100, changed.length))] = (byte) random.nextInt(256);
      }
      Path file = Files.write(folder.resolve("changed"), changed);
      try (Recording recording = open(file)) {
        for (Channel channel : recording.channels()) {
          for (double sample : whole(recording, channel)) {
            assertThat(Double.isFinite(sample)).isTrue();
          }
        }
      } catch (RecordingFormatException e) {
        assertThat(e.getMessage()).startsWith("changed: ");
      }
    }
  }
}
