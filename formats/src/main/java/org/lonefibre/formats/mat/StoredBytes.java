package org.lonefibre.formats.mat;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import org.lonefibre.signal.recording.RecordingFormatException;

/** The bytes of the file as they stand. */
final class StoredBytes implements MatBytes {

  private final String name;
  private final FileChannel file;

  StoredBytes(String name, FileChannel file) {
    this.name = name;
    this.file = file;
  }

  @Override
  public void read(long position, ByteBuffer buffer) throws IOException {
    long at = position;
    while (buffer.hasRemaining()) {
      int read = file.read(buffer, at);
      if (read < 0) {
        throw fault(at, buffer.remaining() + " more bytes", "the end of the file");
      }
      at += read;
    }
  }

  /** Inflated bytes of a part of the file. */
  InflatedBytes inflated(long position, long count) {
    return new InflatedBytes(this, position, count);
  }

  @Override
  public RecordingFormatException fault(long position, String expected, String found) {
    return new RecordingFormatException(
        name, "byte " + position, expected, found, "save it again, or export it as EDF+");
  }

  @Override
  public void rest() {}

  @Override
  public void close() throws IOException {
    file.close();
  }
}
