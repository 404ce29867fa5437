package org.lonefibre.formats.mat;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import org.lonefibre.formats.reader.FileBytes;
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
    FileBytes.fill(name, file, position, buffer);
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
