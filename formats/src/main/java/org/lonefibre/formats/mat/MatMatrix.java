package org.lonefibre.formats.mat;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import org.lonefibre.formats.reader.SampleSource;
import org.lonefibre.formats.reader.SourceRecording.WholeRange;

/**
 * A real matrix and where its numbers stand, column after column.
 *
 * @param kind kind that its class names
 * @param stored kind as it is stored, which may be a narrower one
 * @param at position of the first number
 */
record MatMatrix(
    long rows,
    long columns,
    MatType kind,
    MatType stored,
    MatBytes bytes,
    long at,
    ByteOrder order) {

  /** Fits the second-level cache of usual processors; engineering choice. */
  private static final int CHUNK_BYTES = 1 << 18;

  long numbers() {
    return rows * columns;
  }

  String description() {
    return rows + " by " + columns + ", " + kind.name().toLowerCase(Locale.ROOT);
  }

  double number() throws IOException {
    return stored.number(bytes.some(at, stored.width, order), 0);
  }

  /** Range of the class; null for real numbers, or if what is stored may go beyond. */
  @Nullable WholeRange findRange() {
    WholeRange own = kind.findRange();
    WholeRange written = stored.findRange();
    return own == null
            || written == null
            || written.low() < own.low()
            || written.high() > own.high()
        ? null
        : own;
  }

  /** One channel; the longer side is time. */
  SampleSource channel(int channel) {
    boolean timeDown = rows > columns;
    long count = Math.max(rows, columns);
    long first = timeDown ? channel * count : channel;
    int step = timeDown ? 1 : (int) rows;
    return new SampleSource() {
      @Override
      public long count() {
        return count;
      }

      @Override
      public Missing missing() {
        return stored.isReal() ? Missing.NOT_FINITE : Missing.NEVER;
      }

      @Override
      public void read(long from, double[] destination, int offset, int length) throws IOException {
        copy(first + from * step, step, destination, offset, length);
      }
    };
  }

  private void copy(long first, int step, double[] destination, int offset, int length)
      throws IOException {
    int frame = step * stored.width;
    int atOnce = Math.max(1, CHUNK_BYTES / frame);
    ByteBuffer buffer = ByteBuffer.allocate(Math.min(Math.max(1, length), atOnce) * frame);
    buffer.order(order);
    for (int done = 0; done < length; done += atOnce) {
      int frames = Math.min(atOnce, length - done);
      // Behind the last number of a channel no other need follow.
      buffer.clear().limit((frames - 1) * frame + stored.width);
      bytes.read(at + (first + (long) done * step) * stored.width, buffer);
      for (int k = 0; k < frames; k++) {
        destination[offset + done + k] = stored.number(buffer, k * frame);
      }
    }
  }
}
