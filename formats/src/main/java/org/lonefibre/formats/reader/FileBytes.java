package org.lonefibre.formats.reader;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import org.lonefibre.signal.recording.RecordingFormatException;

/** Reading by position. Thread rule: safe, keeps nothing. */
public final class FileBytes {

  private FileBytes() {}

  /**
   * Fills what remains of a buffer.
   *
   * @param name name of the file, for messages
   * @param at position of the first byte
   * @throws RecordingFormatException if the file ends before
   */
  public static void fill(String name, FileChannel file, long at, ByteBuffer buffer)
      throws IOException {
    long position = at;
    while (buffer.hasRemaining()) {
      int read = file.read(buffer, position);
      if (read < 0) {
        throw new RecordingFormatException(
            name,
            "byte " + position,
            buffer.remaining() + " more bytes",
            "the end of the file",
            "copy the file again; it was cut, or has shrunk while it was read");
      }
      position += read;
    }
  }
}
