package org.lonefibre.formats.wav;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.channels.FileChannel;
import org.lonefibre.formats.reader.FileBytes;
import org.lonefibre.signal.recording.RecordingFormatException;

/** The bytes of a file by their position, and how its numbers are written. */
final class WavBytes {

  final String file;
  final ByteOrder order;
  final long size;
  private final FileChannel channel;

  WavBytes(String file, FileChannel channel, ByteOrder order) throws IOException {
    this.file = file;
    this.channel = channel;
    this.order = order;
    this.size = channel.size();
  }

  void close() throws IOException {
    channel.close();
  }

  /** Bytes from a position on; they must be there. */
  ByteBuffer read(long at, int length) throws IOException {
    ByteBuffer buffer = ByteBuffer.allocate(length).order(order);
    fill(buffer, at);
    return buffer.flip();
  }

  /** Fills what remains of a buffer. */
  void fill(ByteBuffer buffer, long at) throws IOException {
    FileBytes.fill(file, channel, at, buffer);
  }

  RecordingFormatException fault(long at, String field, String expected, String found) {
    return new RecordingFormatException(
        file,
        "byte " + at + ", " + field,
        expected,
        found,
        "export the recording again, as 16 or 24 bit WAV or EDF+");
  }
}
