package org.lonefibre.formats.fuzz;

import com.sun.management.ThreadMXBean;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.lang.management.ManagementFactory;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Random;
import java.util.stream.Stream;
import org.lonefibre.formats.reader.RecordingReader;
import org.lonefibre.signal.recording.Annotation;
import org.lonefibre.signal.recording.Channel;
import org.lonefibre.signal.recording.Finding;
import org.lonefibre.signal.recording.Recording;
import org.lonefibre.signal.recording.RecordingFormatException;
import org.lonefibre.signal.recording.Segment;

/**
 * What must hold of a reader whatever the bytes: it reads or refuses.
 *
 * <ul>
 *   <li>Asking whether it recognises them answers; nothing is thrown.
 *   <li>A refusal is a {@link RecordingFormatException} of one line with file and place.
 *   <li>Samples, times and ranges are finite; segments cover all samples in order of time.
 *   <li>A sample read again by itself is the same.
 *   <li>Opening and reading allocate at most {@value #FREE_BYTES} bytes and {@value
 *       #BYTES_PER_BYTE} for each byte of the files, and take at most {@value #MOST_SECONDS} s.
 * </ul>
 */
final class ReaderCheck {

  static final long FREE_BYTES = 16 << 20;
  static final int BYTES_PER_BYTE = 64;
  static final int MOST_SECONDS = 10;

  private static final int BLOCK = 4096;
  private static final int AGAIN = 20;
  private static final ThreadMXBean THREADS = (ThreadMXBean) ManagementFactory.getThreadMXBean();

  private final FuzzTarget target;
  private final Path folder;
  private final double[] block = new double[BLOCK];
  private final double[] one = new double[1];
  private long read;
  private long refused;

  /**
   * @param folder an empty folder for the files
   */
  ReaderCheck(FuzzTarget target, Path folder) {
    this.target = target;
    this.folder = folder;
  }

  /** Inputs that were read. */
  long read() {
    return read;
  }

  /** Inputs that were refused. */
  long refused() {
    return refused;
  }

  /**
   * Gives one input to the reader.
   *
   * @throws AssertionError if anything that must hold does not
   */
  void accept(byte[] input) {
    try {
      Path file = target.lay(folder, input);
      long most = FREE_BYTES + BYTES_PER_BYTE * bytes();
      long begun = System.nanoTime();
      long allocated = open(file, input);
      double seconds = (System.nanoTime() - begun) * 1e-9;
      that(seconds <= MOST_SECONDS, "it took " + seconds + " s");
      if (allocated > most) {
        // The first time, what is allocated may be for the classes that are loaded.
        long again = open(file, input);
        that(again <= most, again + " bytes were allocated where " + most + " are allowed");
      }
    } catch (IOException e) {
      throw new AssertionError("an exception without file and place", e);
    }
  }

  /** Opens and reads; gives the bytes allocated for it. */
  private long open(Path file, byte[] input) throws IOException {
    long before = THREADS.getCurrentThreadAllocatedBytes();
    target.reader.recognises(head(file));
    try (Recording recording = target.reader.open(file, target.options(input))) {
      inspect(recording);
      read++;
    } catch (RecordingFormatException e) {
      refusal(e);
      refused++;
    }
    return THREADS.getCurrentThreadAllocatedBytes() - before;
  }

  private static byte[] head(Path file) throws IOException {
    try (InputStream in = Files.newInputStream(file)) {
      return in.readNBytes(RecordingReader.HEAD_BYTES);
    }
  }

  private long bytes() throws IOException {
    try (Stream<Path> files = Files.list(folder)) {
      return files.mapToLong(ReaderCheck::size).sum();
    }
  }

  private static long size(Path file) {
    try {
      return Files.size(file);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static void that(boolean holds, String otherwise) {
    if (!holds) {
      throw new AssertionError(otherwise);
    }
  }

  void refusal(RecordingFormatException e) {
    that(!e.place().isBlank(), "a refusal without a place: " + e.getMessage());
    that(Files.exists(folder.resolve(e.file())), "a refusal of another file: " + e.getMessage());
    that(!e.file().isBlank(), "a refusal without a file: " + e.getMessage());
    that(
        String.valueOf(e.getMessage()).chars().noneMatch(Character::isISOControl),
        "a refusal of several lines, or with control characters: " + e.getMessage());
  }

  void inspect(Recording recording) throws IOException {
    int number = 0;
    for (Channel channel : recording.channels()) {
      that(channel.number() > number, "numbers do not go up");
      number = channel.number();
      facts(channel);
      samples(recording, channel);
    }
    double before = Double.NEGATIVE_INFINITY;
    for (Annotation annotation : recording.annotations()) {
      that(Double.isFinite(annotation.startS()), "the time of an annotation is no number");
      that(annotation.startS() >= before, "annotations are not in order");
      before = annotation.startS();
      Double duration = annotation.durationS();
      that(duration == null || Double.isFinite(duration), "a duration is no number");
    }
    for (Finding finding : recording.findings()) {
      that(!finding.text().isBlank(), "a finding without words");
    }
  }

  private static void facts(Channel channel) {
    long next = 0;
    double endS = Double.NEGATIVE_INFINITY;
    double sampleS = channel.timeBase().timeS(1);
    for (Segment segment : channel.segments()) {
      that(segment.firstSample() == next, "segments leave samples out");
      that(Double.isFinite(segment.startS()), "the start of a segment is no number");
      that(segment.startS() >= endS - 0.6 * sampleS - 1e-9 * Math.abs(endS), "segments overlap");
      next = segment.endSample();
      endS = segment.startS() + channel.timeBase().timeS(segment.sampleCount());
    }
    that(next == channel.sampleCount(), "segments do not cover the samples");
    Double low = channel.lowRailUv();
    Double high = channel.highRailUv();
    Double step = channel.resolutionUv();
    that(low == null || Double.isFinite(low), "a rail is no number");
    that(high == null || Double.isFinite(high), "a rail is no number");
    that(low == null || high == null || low <= high, "the rails are swapped");
    that(step == null || (step > 0 && Double.isFinite(step)), "a step is no number above 0");
  }

  private void samples(Recording recording, Channel channel) throws IOException {
    long count = channel.sampleCount();
    double sum = 0;
    for (long at = 0; at < count; at += BLOCK) {
      int length = (int) Math.min(BLOCK, count - at);
      recording.read(channel, at, block, 0, length);
      for (int k = 0; k < length; k++) {
        that(Double.isFinite(block[k]), "sample " + (at + k) + " is no number");
        sum += block[k];
      }
      if (at == 0) {
        again(recording, channel, length, new Random(Double.hashCode(sum)));
      }
    }
  }

  /** Reads some samples of the first block by themselves. */
  private void again(Recording recording, Channel channel, int length, Random random)
      throws IOException {
    for (int k = 0; k < AGAIN; k++) {
      int at = random.nextInt(length);
      recording.read(channel, at, one, 0, 1);
      that(one[0] == block[at], "sample " + at + " is another when it is read by itself");
    }
  }
}
