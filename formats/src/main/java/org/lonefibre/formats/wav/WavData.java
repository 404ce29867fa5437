package org.lonefibre.formats.wav;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lonefibre.formats.reader.SampleRange;
import org.lonefibre.formats.reader.SampleRuns;

/**
 * The samples of a file as numbers: integers as stored, those of one byte less 128, floating-point
 * numbers as they are. Integers of more than 53 bits are rounded to the nearest double.
 *
 * <p>Thread rule: safe; every call has its own buffer.
 */
final class WavData {

  private static final int CHUNK_BYTES = 1 << 17;

  private final WavBytes bytes;
  private final WavFormat format;
  private final long start;

  /** Whole frames. */
  final long frames;

  WavData(WavBytes bytes, WavFormat format, WavChunks.Chunk samples) {
    this.bytes = bytes;
    this.format = format;
    this.start = samples.start();
    this.frames = samples.size() / format.frameBytes();
  }

  /** Reads samples of one channel, counted from 0. */
  void read(int channel, long first, double factor, double[] destination, int offset, int length)
      throws IOException {
    int frame = format.frameBytes();
    int most = Math.max(1, CHUNK_BYTES / frame);
    ByteBuffer buffer = ByteBuffer.allocate(Math.min(length, most) * frame).order(bytes.order);
    int done = 0;
    while (done < length) {
      int count = Math.min(most, length - done);
      buffer.clear().limit(count * frame);
      bytes.fill(buffer, start + (first + done) * frame);
      int at = channel * format.sampleBytes();
      for (int k = 0; k < count; k++) {
        destination[offset + done + k] = factor * number(buffer, at);
        at += frame;
      }
      done += count;
    }
  }

  private double number(ByteBuffer buffer, int at) {
    int width = format.sampleBytes();
    if (format.isFloat()) {
      return width == 4 ? buffer.getFloat(at) : buffer.getDouble(at);
    }
    return switch (width) {
      case 1 -> (buffer.get(at) & 0xFF) - 128;
      case 2 -> buffer.getShort(at);
      case 4 -> buffer.getInt(at);
      case 8 -> buffer.getLong(at);
      default -> odd(buffer, at, width);
    };
  }

  private static long odd(ByteBuffer buffer, int at, int width) {
    boolean isLittle = buffer.order() == ByteOrder.LITTLE_ENDIAN;
    long value = buffer.get(isLittle ? at + width - 1 : at);
    for (int k = 1; k < width; k++) {
      int next = isLittle ? at + width - 1 - k : at + k;
      value = value << 8 | (buffer.get(next) & 0xFF);
    }
    return value;
  }

  /**
   * The samples of each channel that are finite numbers, found in one pass; null for a channel in
   * which others stand too often.
   *
   * @param factor what samples are multiplied with
   */
  List<@Nullable SampleRuns> present(double factor) throws IOException {
    int channels = format.channels();
    List<@Nullable SampleRuns> present = new ArrayList<>();
    if (!format.isFloat()) {
      SampleRuns all = SampleRuns.whole(frames);
      for (int c = 0; c < channels; c++) {
        present.add(all);
      }
      return present;
    }
    SampleRuns.Builder[] runs = new SampleRuns.Builder[channels];
    Arrays.setAll(runs, c -> new SampleRuns.Builder());
    long[] runStart = new long[channels];
    boolean[] isTooBroken = new boolean[channels];
    int frame = format.frameBytes();
    int most = (int) Math.min(Math.max(1, CHUNK_BYTES / frame), Math.max(1, frames));
    ByteBuffer buffer = ByteBuffer.allocate(most * frame).order(bytes.order);
    for (long at = 0; at < frames; at += most) {
      int count = (int) Math.min(most, frames - at);
      buffer.clear().limit(count * frame);
      bytes.fill(buffer, start + at * frame);
      for (int k = 0; k < count * channels; k++) {
        if (!SampleRange.holds(factor * number(buffer, k * format.sampleBytes()))) {
          int c = k % channels;
          long index = at + k / channels;
          isTooBroken[c] |= !isTooBroken[c] && !runs[c].add(runStart[c], index - runStart[c]);
          runStart[c] = index + 1;
        }
      }
    }
    for (int c = 0; c < channels; c++) {
      boolean isKept = !isTooBroken[c] && runs[c].add(runStart[c], frames - runStart[c]);
      present.add(isKept ? runs[c].build() : null);
    }
    return present;
  }
}
