package org.lonefibre.formats.mat;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.ClosedChannelException;
import java.util.zip.DataFormatException;
import java.util.zip.Inflater;
import org.jspecify.annotations.Nullable;
import org.lonefibre.signal.recording.RecordingFormatException;

/**
 * The bytes to which a compressed part of the file unfolds (Deutsch 1996, RFC 1950). They are made
 * one window after the other; going back behind the window begins anew.
 */
final class InflatedBytes implements MatBytes {

  /** The most that one byte of deflate unfolds to (Deutsch 1996, RFC 1951), rounded up. */
  private static final long MOST_UNFOLDED = 1040;

  /** Engineering choices. */
  private static final int WINDOW_BYTES = 1 << 20;

  private static final int INPUT_BYTES = 1 << 16;

  private final StoredBytes stored;
  private final long start;
  private final long count;
  private @Nullable Inflater inflater;
  private byte[] window = new byte[0];
  private byte[] input = new byte[0];
  private long windowFirst;
  private int windowLength;
  private long consumed;
  private boolean closed;

  InflatedBytes(StoredBytes stored, long start, long count) {
    this.stored = stored;
    this.start = start;
    this.count = count;
  }

  /** More than it can unfold to. */
  long mostBytes() {
    return MOST_UNFOLDED * (count + 1);
  }

  @Override
  public synchronized void read(long position, ByteBuffer buffer) throws IOException {
    if (closed) {
      throw new ClosedChannelException();
    }
    long at = position;
    while (buffer.hasRemaining()) {
      if (at < windowFirst || inflater == null) {
        restart();
      }
      while (at >= windowFirst + windowLength) {
        advance();
      }
      int within = (int) (at - windowFirst);
      int run = Math.min(buffer.remaining(), windowLength - within);
      buffer.put(window, within, run);
      at += run;
    }
  }

  private void restart() {
    rest();
    inflater = new Inflater();
    window = new byte[(int) Math.min(WINDOW_BYTES, mostBytes())];
    input = new byte[(int) Math.min(INPUT_BYTES, Math.max(1, count))];
  }

  private void advance() throws IOException {
    Inflater own = java.util.Objects.requireNonNull(inflater);
    windowFirst += windowLength;
    windowLength = 0;
    try {
      while (windowLength < window.length && !own.finished()) {
        if (own.needsDictionary() || own.needsInput() && consumed == count) {
          break;
        }
        if (own.needsInput()) {
          int more = (int) Math.min(input.length, count - consumed);
          stored.read(start + consumed, ByteBuffer.wrap(input, 0, more));
          own.setInput(input, 0, more);
          consumed += more;
        }
        windowLength += own.inflate(window, windowLength, window.length - windowLength);
      }
    } catch (DataFormatException e) {
      String found = String.valueOf(e.getMessage());
      rest();
      throw stored.fault(start, "compressed data that are whole", found);
    }
    if (windowLength == 0) {
      long end = windowFirst;
      rest();
      throw fault(end, "more bytes", "the end of the compressed data");
    }
  }

  @Override
  public RecordingFormatException fault(long position, String expected, String found) {
    return stored.fault(start, expected + " (byte " + position + " when unfolded)", found);
  }

  @Override
  public synchronized void rest() {
    if (inflater != null) {
      inflater.end();
      inflater = null;
    }
    window = new byte[0];
    input = new byte[0];
    windowFirst = 0;
    windowLength = 0;
    consumed = 0;
  }

  @Override
  public synchronized void close() {
    rest();
    closed = true;
  }
}
