package org.lonefibre.formats.mat;

import java.io.Closeable;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import org.lonefibre.signal.recording.RecordingFormatException;

/** The bytes in which variables stand, read by position. Thread rule: safe. */
interface MatBytes extends Closeable {

  /**
   * Fills a buffer with the bytes from a position on.
   *
   * @throws RecordingFormatException if there are not so many
   */
  void read(long position, ByteBuffer buffer) throws IOException;

  /** A refusal that names a position. */
  RecordingFormatException fault(long position, String expected, String found);

  /** Lets go of memory until bytes are read again. */
  void rest();

  /** Some bytes, at most a million. */
  default ByteBuffer some(long position, long count, ByteOrder order) throws IOException {
    if (count > 1_000_000) {
      throw fault(position, "at most 1000000 bytes", Long.toString(count));
    }
    ByteBuffer buffer = ByteBuffer.allocate((int) count).order(order);
    read(position, buffer);
    return buffer.flip();
  }
}
