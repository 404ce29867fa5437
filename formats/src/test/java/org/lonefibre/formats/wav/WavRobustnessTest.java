package org.lonefibre.formats.wav;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.Duration;
import java.util.Arrays;
import java.util.List;
import javax.sound.sampled.AudioFileFormat;
import javax.sound.sampled.AudioFormat;
import javax.sound.sampled.AudioInputStream;
import javax.sound.sampled.AudioSystem;
import org.junit.jupiter.api.Assertions;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.lonefibre.formats.RecordingReaders;
import org.lonefibre.formats.reader.ReadOptions;
import org.lonefibre.signal.recording.Channel;
import org.lonefibre.signal.recording.Finding;
import org.lonefibre.signal.recording.FindingCode;
import org.lonefibre.signal.recording.Recording;
import org.lonefibre.signal.recording.RecordingFormatException;

/** WAV files right and wrong; the row is that of the list of files a reader must survive. */
class WavRobustnessTest {

  private static final long[] STEPS = {1, -2, 300, -400, 32_767, -32_768};

  @TempDir Path folder;

  private static WavFile plain() {
    return WavFile.of("RIFF").format(1, 2, 48_000, 16);
  }

  private Recording open(WavFile file) throws IOException {
    return RecordingReaders.open(file.write(folder, "a.wav"), ReadOptions.defaults());
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
  @CsvSource({
    "RIFF, 1, 8", "RIFF, 2, 16", "RIFF, 3, 24", "RIFF, 4, 32", "RIFF, 5, 40", "RIFF, 8, 64",
    "RIFX, 1, 8", "RIFX, 2, 16", "RIFX, 3, 24", "RIFX, 4, 32", "RIFX, 7, 56", "RIFX, 8, 64",
    "RF64, 2, 16", "BW64, 3, 24"
  })
  void integersOfAnyWidthAreReadAsStored(String form, int bytes, int bits) throws IOException {
    WavFile file = WavFile.of(form);
    long most = bytes == 8 ? Long.MAX_VALUE >> 11 << 11 : (1L << (bits - 1)) - 1;
    long[] values = {0, 1, -1, most, -most - 1, 77};
    long[] stored = bytes == 1 ? Arrays.stream(values).map(v -> v + 128).toArray() : values;
    byte[] data = file.integers(bytes, stored);
    if (form.endsWith("64")) {
      file.sizes(data.length).format(1, 2, 48_000, bits).chunk("data", 0xFFFF_FFFFL, data);
    } else {
      file.format(1, 2, 48_000, bits).chunk("data", data);
    }
    try (Recording recording = open(file)) {
      assertThat(samples(recording, 0)).containsExactly(0, -1, -(double) most - 1);
      assertThat(samples(recording, 1)).containsExactly(1, most, 77);
      assertThat(codes(recording)).containsExactly(FindingCode.UNCALIBRATED);
    }
  }

  @Test
  void theExtensibleFormIsReadAndBitsThatDoNotCountAreKept() throws IOException {
    WavFile file = WavFile.of("RIFF").extensible(1, 1, 44_100, 32, 20);
    file.chunk("data", file.integers(4, 4096, -8192));
    try (Recording recording = open(file)) {
      assertThat(samples(recording, 0)).containsExactly(4096, -8192);
    }
    WavFile floats = WavFile.of("RIFX").extensible(3, 1, 44_100, 64, 64);
    floats.chunk("data", floats.floats(8, 3, k -> k / 3.0));
    try (Recording recording = open(floats)) {
      assertThat(samples(recording, 0)).containsExactly(0, 1 / 3.0, 2 / 3.0);
    }
  }

  @ParameterizedTest
  @CsvSource({"6, A-law", "7, mu-law", "2, ADPCM", "17, ADPCM", "85, MP3", "80, MPEG", "49, GSM"})
  void codingThatLosesDetailIsRefusedWithTheReason(int code, String name) throws IOException {
    for (WavFile file :
        List.of(
            WavFile.of("RIFF").format(code, 1, 8000, 8),
            WavFile.of("RIFF").extensible(code, 1, 8000, 8, 8))) {
      file.chunk("data", new byte[100]);
      assertThatThrownBy(() -> open(file))
          .isInstanceOf(RecordingFormatException.class)
          .hasMessageStartingWith("a.wav: byte 20, coding of the samples")
          .hasMessageContaining(name)
          .hasMessageContaining("jitter would be that of the coding");
    }
  }

  @Test
  void row23SizesBeyondTheEndOfTheFileAreBoundedByIt() throws IOException {
    WavFile file = plain();
    file.chunk("data", 3_000_000_000L, file.integers(2, STEPS));
    try (Recording recording = open(file)) {
      assertThat(samples(recording, 0)).containsExactly(1, 300, 32_767);
      assertThat(codes(recording)).contains(FindingCode.RECORD_COUNT);
    }
  }

  @ParameterizedTest
  @ValueSource(longs = {0, 0xFFFF_FFFFL})
  void row23ASizeThatWasNeverWrittenEndsWithTheFile(long size) throws IOException {
    WavFile file = plain();
    file.chunk("data", size, file.integers(2, STEPS));
    try (Recording recording = open(file)) {
      assertThat(samples(recording, 1)).containsExactly(-2, -400, -32_768);
      assertThat(codes(recording)).contains(FindingCode.RECORD_COUNT);
    }
  }

  @Test
  void row23UnknownChunksArePassedOverBeforeAndAfter() throws IOException {
    WavFile file = WavFile.of("RIFF").chunk("junk", new byte[333]).format(1, 2, 48_000, 16);
    file.chunk("LIST", new byte[27]).chunk("data", file.integers(2, STEPS));
    file.chunk("odd ", new byte[5]).chunk("tail", 4_000_000_000L, new byte[2]);
    try (Recording recording = open(file)) {
      assertThat(samples(recording, 0)).containsExactly(1, 300, 32_767);
      assertThat(codes(recording)).containsExactly(FindingCode.UNCALIBRATED);
    }
  }

  @Test
  void row23AFormatAfterTheSamplesIsFoundAndASecondBlockOfSamplesIsSaid() throws IOException {
    WavFile file = WavFile.of("RIFF");
    byte[] data = file.integers(2, STEPS);
    file.chunk("data", data).format(1, 2, 48_000, 16).chunk("data", data);
    try (Recording recording = open(file)) {
      assertThat(samples(recording, 0)).containsExactly(1, 300, 32_767);
      assertThat(codes(recording)).contains(FindingCode.TRAILING_BYTES);
    }
  }

  @Test
  void row23AChunkOfOddSizeThatIsNotPaddedHidesNothing() throws IOException {
    WavFile file = WavFile.of("RIFF").format(1, 1, 48_000, 16);
    byte[] data = {'d', 'a', 't', 'a', 4, 0, 0, 0, 1, 0, 2, 0, 0};
    byte[] inner = new byte[5 + data.length];
    System.arraycopy(data, 0, inner, 5, data.length);
    file.chunk("odd ", 5, inner);
    try (Recording recording = open(file)) {
      assertThat(samples(recording, 0)).containsExactly(1, 2);
    }
  }

  @ParameterizedTest
  @CsvSource({"0, 16, 48000", "4, 24, 48000", "5, 16, 48000", "2, 16, 48000", "4, 0, 48000"})
  void row23ContradictoryAlignmentIsRefusedWithItsByte(int frame, int bits, int rate)
      throws IOException {
    WavFile file = WavFile.of("RIFF").format(1, 2, rate, rate * 4, frame, bits);
    file.chunk("data", new byte[64]);
    assertThatThrownBy(() -> open(file))
        .isInstanceOf(RecordingFormatException.class)
        .hasMessageMatching("a\\.wav: byte (32|34), .*");
  }

  @Test
  void row23AByteRateThatContradictsTheRateIsSaid() throws IOException {
    WavFile file = WavFile.of("RIFF").format(1, 2, 48_000, 96_000, 4, 16);
    file.chunk("data", file.integers(2, STEPS));
    try (Recording recording = open(file)) {
      assertThat(recording.channels().get(0).timeBase().samplingRateHz()).isEqualTo(48_000);
      assertThat(codes(recording)).contains(FindingCode.HEADER_CONTRADICTION);
    }
  }

  @Test
  void row23ManyEmptyChunksEndSoon() throws IOException {
    byte[] chunk = {'j', 'u', 'n', 'k', 0, 0, 0, 0};
    byte[] bytes = new byte[12 + 8 * 1_000_000];
    System.arraycopy(
        "RIFF....WAVE".getBytes(java.nio.charset.StandardCharsets.US_ASCII), 0, bytes, 0, 12);
    for (int at = 12; at < bytes.length; at += 8) {
      System.arraycopy(chunk, 0, bytes, at, 8);
    }
    Path file = Files.write(folder.resolve("many.wav"), bytes);
    Assertions.assertTimeout(
        Duration.ofSeconds(20),
        () ->
            assertThatThrownBy(() -> RecordingReaders.open(file, ReadOptions.defaults()))
                .isInstanceOf(RecordingFormatException.class)
                .hasMessageContaining("at most 100000 chunks"));
  }

  @Test
  void aLastFrameThatIsCutIsLeftOutAndCounted() throws IOException {
    WavFile file = plain();
    file.chunk("data", Arrays.copyOf(file.integers(2, STEPS), 11));
    try (Recording recording = open(file)) {
      assertThat(samples(recording, 1)).containsExactly(-2, -400);
      assertThat(codes(recording)).contains(FindingCode.TRAILING_BYTES);
    }
  }

  @Test
  void numbersThatAreNoneAreGapsOfTheirChannelOnly() throws IOException {
    WavFile file = WavFile.of("RIFF").format(3, 2, 1000, 32);
    file.chunk(
        "data",
        file.floats(4, 20, k -> k == 6 ? Double.NaN : k == 8 ? Double.POSITIVE_INFINITY : 0.5 * k));
    try (Recording recording = open(file)) {
      Channel first = recording.channels().get(0);
      assertThat(first.sampleCount()).isEqualTo(8);
      assertThat(first.segments()).hasSize(2);
      assertThat(first.segments().get(1).startS()).isEqualTo(0.005);
      assertThat(samples(recording, 0)).containsExactly(0, 1, 2, 5, 6, 7, 8, 9);
      assertThat(recording.channels().get(1).segments()).hasSize(1);
      assertThat(codes(recording)).contains(FindingCode.MISSING_SAMPLES);
    }
  }

  @Test
  void aToldRateMayOnlyAddTheFractionThatTheFileCannotHold() throws IOException {
    WavFile wav = plain();
    Path file = wav.chunk("data", wav.integers(2, STEPS)).write(folder, "a.wav");
    try (Recording recording =
        RecordingReaders.open(file, ReadOptions.defaults().withSamplingRateHz(48_000.4))) {
      assertThat(recording.channels().get(0).timeBase().samplingRateHz()).isEqualTo(48_000.4);
    }
    assertThatThrownBy(
            () -> RecordingReaders.open(file, ReadOptions.defaults().withSamplingRateHz(96_000)))
        .isInstanceOf(RecordingFormatException.class)
        .hasMessageContaining("48000 Hz");
  }

  @Test
  void aFileThatTheJdkWroteIsReadToTheSample() throws IOException {
    byte[] data = plain().integers(2, STEPS);
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    AudioFormat format = new AudioFormat(48_000, 16, 2, true, false);
    AudioSystem.write(
        new AudioInputStream(new ByteArrayInputStream(data), format, 3),
        AudioFileFormat.Type.WAVE,
        out);
    Path file = Files.write(folder.resolve("jdk"), out.toByteArray());
    try (Recording recording = RecordingReaders.open(file, ReadOptions.defaults())) {
      assertThat(samples(recording, 0)).containsExactly(1, 300, 32_767);
      assertThat(samples(recording, 1)).containsExactly(-2, -400, -32_768);
    }
  }

  @Test
  void row17AFileOfMoreThanFourGigabytesIsReadToItsEnd() throws IOException {
    long bytes = 4_500_000_000L;
    Path path =
        WavFile.of("RF64")
            .sizes(bytes)
            .format(1, 1, 48_000, 16)
            .chunk("data", 0xFFFF_FFFFL, new byte[0])
            .write(folder, "large.wav");
    long start = Files.size(path);
    try (FileChannel file = FileChannel.open(path, StandardOpenOption.WRITE)) {
      file.write(ByteBuffer.wrap(new byte[] {(byte) 0xD2, 0x04}), start + bytes - 2);
    }
    try (Recording recording = RecordingReaders.open(path, ReadOptions.defaults())) {
      Channel channel = recording.channels().get(0);
      assertThat(channel.sampleCount()).isEqualTo(2_250_000_000L);
      double[] end = new double[2];
      recording.read(channel, channel.sampleCount() - 2, end, 0, 2);
      assertThat(end).containsExactly(0, 1234);
      assertThat(codes(recording)).containsExactly(FindingCode.UNCALIBRATED);
    }
  }
}
