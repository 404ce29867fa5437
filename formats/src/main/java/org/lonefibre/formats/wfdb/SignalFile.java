package org.lonefibre.formats.wfdb;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.lonefibre.signal.recording.RecordingFormatException;

/**
 * One file of samples that one or several signals share: frame after frame, in each frame the
 * samples of each signal in the order of the header.
 *
 * <ul>
 *   <li>Differences are summed from the nearest of the sums kept every {@value #SUM_FRAMES} frames.
 *   <li>Thread rule: safe once scanned.
 * </ul>
 */
final class SignalFile {

  /** Samples decoded at once; fits the second-level cache. Divisible by 2 and 3. */
  private static final int CHUNK = 3 << 14;

  /** Frames between two sums of differences that are kept; engineering choice. */
  private static final int SUM_FRAMES = 1 << 14;

  final Path path;
  final WfdbFormat format;
  final List<WfdbSignalLine> signals;

  /** Whole frames in the file. */
  final long frames;

  private final long bytes;
  private final int[] offsets;
  private final int perFrame;
  private final int[][] sums;

  SignalFile(Path path, WfdbFormat format, List<WfdbSignalLine> signals) throws IOException {
    this.path = path;
    this.format = format;
    this.signals = List.copyOf(signals);
    this.offsets = new int[signals.size()];
    long total = 0;
    for (int i = 0; i < offsets.length; i++) {
      offsets[i] = Math.toIntExact(Math.min(total, Integer.MAX_VALUE));
      total += signals.get(i).samplesPerFrame();
    }
    WfdbSignalLine first = signals.get(0);
    if (total > Integer.MAX_VALUE) {
      throw first
          .fields()
          .fault("samples per frame", "at most 2147483647 in a frame", Long.toString(total));
    }
    this.perFrame = (int) total;
    this.bytes = Math.max(0, Files.size(path) - first.byteOffset());
    this.frames = format.samplesIn(bytes) / perFrame;
    int kept = format.isDifferences() ? (int) Math.min(1 << 26, frames / SUM_FRAMES + 1) : 0;
    this.sums = new int[format.isDifferences() ? signals.size() : 0][kept];
  }

  /** Bytes that are left after a number of frames. */
  long bytesAfter(long usedFrames) {
    return bytes - format.bytesOf(usedFrames * perFrame);
  }

  /** Receives samples of one signal, in order. */
  @FunctionalInterface
  interface Samples {
    void accept(int signal, int[] values, int from, int count) throws IOException;
  }

  /**
   * Goes once through the samples of all signals; only then can differences be read.
   *
   * @param mostFrames frames that belong to the record; more in the file are left out
   */
  void scan(OpenFiles files, long mostFrames, Samples samples) throws IOException {
    boolean isAlone = signals.size() == 1;
    boolean isEven = (isAlone || perFrame == signals.size()) && !format.isDifferences();
    FrameWalk walk = isEven ? null : new FrameWalk();
    byte[] buffer = new byte[CHUNK / format.packSamples * format.packBytes];
    int[] values = new int[CHUNK];
    int[] own = new int[isEven && !isAlone ? CHUNK / perFrame + 1 : 0];
    long total = Math.min(mostFrames, frames) * perFrame;
    for (long at = 0; at < total; at += CHUNK) {
      int count = (int) Math.min(CHUNK, total - at);
      decode(files, at, count, buffer, values);
      if (walk != null) {
        walk.over(values, count, samples);
      } else if (isAlone) {
        samples.accept(0, values, 0, count);
      } else {
        for (int s = 0; s < perFrame; s++) {
          int length = 0;
          for (int k = Math.floorMod(s - at, perFrame); k < count; k += perFrame) {
            own[length++] = values[k];
          }
          samples.accept(s, own, 0, length);
        }
      }
    }
  }

  /** Walks over frames of any kind, signal by signal, and sums differences. */
  private final class FrameWalk {

    private final int[] each = signals.stream().mapToInt(WfdbSignalLine::samplesPerFrame).toArray();
    private final int[] running = signals.stream().mapToInt(WfdbSignalLine::initial).toArray();
    private long frame;
    private int signal;
    private int within;

    void over(int[] values, int count, Samples samples) throws IOException {
      int k = 0;
      while (k < count) {
        int run = Math.min(each[signal] - within, count - k);
        if (format.isDifferences()) {
          addUp(values, k, run);
        }
        samples.accept(signal, values, k, run);
        k += run;
        within += run;
        if (within == each[signal]) {
          within = 0;
          signal++;
        }
        if (signal == each.length) {
          signal = 0;
          frame++;
        }
      }
    }

    private void addUp(int[] values, int from, int count) throws IOException {
      if (within == 0 && frame % SUM_FRAMES == 0) {
        sums[signal][(int) (frame / SUM_FRAMES)] = running[signal];
      }
      for (int k = from; k < from + count; k++) {
        running[signal] = sum(signal, running[signal], values[k]);
        values[k] = running[signal];
      }
    }
  }

  private int sum(int signal, int before, int difference) throws RecordingFormatException {
    long sum = (long) before + difference;
    if (sum != (int) sum) {
      throw signals
          .get(signal)
          .fields()
          .fault("format", "differences that add up to 32 bits", Long.toString(sum));
    }
    return (int) sum;
  }

  /**
   * Reads samples of one signal as converter numbers.
   *
   * @param first index of the first among the samples of this signal in this file
   */
  void read(OpenFiles files, int signal, long first, int[] destination, int offset, int length)
      throws IOException {
    int each = signals.get(signal).samplesPerFrame();
    long sumIndex = format.isDifferences() ? first / each / SUM_FRAMES : 0;
    long start = format.isDifferences() ? sumIndex * SUM_FRAMES * each : first;
    int running = format.isDifferences() ? sums[signal][(int) sumIndex] : 0;
    long end = first + length;
    long want = raw(signal, start);
    long last = raw(signal, end - 1);
    int most = (int) Math.min(CHUNK, (last - want) + 2L * format.packSamples);
    int packs = (most + format.packSamples - 1) / format.packSamples + 1;
    int room = packs * format.packSamples;
    byte[] buffer = files.bytes(packs * format.packBytes);
    int[] values = files.values(room);
    long chunk = want;
    long filled = want;
    long index = start;
    int within = (int) (start % each);
    while (index < end) {
      if (want >= filled) {
        chunk = want / format.packSamples * format.packSamples;
        int count = (int) Math.min(room, last + 1 - chunk);
        decode(files, chunk, count, buffer, values);
        filled = chunk + count;
      }
      if (each == perFrame && !format.isDifferences()) {
        int from = (int) (want - chunk);
        int run = (int) Math.min(filled - want, end - index);
        System.arraycopy(values, from, destination, offset + (int) (index - first), run);
        index += run;
        want += run;
        continue;
      }
      if (each == 1 && !format.isDifferences()) {
        int to = offset + (int) (index - first);
        while (want < filled && index < end) {
          destination[to++] = values[(int) (want - chunk)];
          want += perFrame;
          index++;
        }
        continue;
      }
      int value = values[(int) (want - chunk)];
      if (format.isDifferences()) {
        running += value;
        value = running;
      }
      if (index >= first) {
        destination[offset + (int) (index - first)] = value;
      }
      index++;
      within++;
      want++;
      if (within == each) {
        within = 0;
        want += perFrame - each;
      }
    }
  }

  /** Place of a sample of a signal among all samples of the file. */
  private long raw(int signal, long index) {
    int each = signals.get(signal).samplesPerFrame();
    return index / each * perFrame + offsets[signal] + index % each;
  }

  /** Decodes samples of any signals from a whole pack on. */
  private void decode(OpenFiles files, long first, int count, byte[] buffer, int[] values)
      throws IOException {
    int packs = (count + format.packSamples - 1) / format.packSamples;
    long from = first / format.packSamples * format.packBytes;
    int length = packs * format.packBytes;
    int there = (int) Math.min(length, bytes - from);
    files.read(path, signals.get(0).byteOffset() + from, buffer, there, length);
    format.decode(buffer, packs, values);
  }
}
