package org.lonefibre.formats.wfdb;

import java.io.Closeable;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.Arrays;
import org.jspecify.annotations.Nullable;
import org.lonefibre.formats.reader.FileBytes;

/**
 * The file that is being read, and room for its samples; only one file is open at a time, since a
 * record may have thousands. Thread rule: one thread.
 */
final class OpenFiles implements Closeable {

  private @Nullable Path path;
  private @Nullable FileChannel channel;
  private byte[] bytes = new byte[0];
  private int[] values = new int[0];
  private int[] numbers = new int[0];

  /** Room for at least so many bytes; what it holds is over with the next call. */
  byte[] bytes(int length) {
    bytes = bytes.length < length ? new byte[length] : bytes;
    return bytes;
  }

  /** Room for at least so many samples of all signals. */
  int[] values(int length) {
    values = values.length < length ? new int[length] : values;
    return values;
  }

  /** Room for at least so many samples of one signal. */
  int[] numbers(int length) {
    numbers = numbers.length < length ? new int[length] : numbers;
    return numbers;
  }

  /**
   * Reads bytes; those after the end of the file that a pack of samples still needs are zeros.
   *
   * @param there how many of them the file has
   */
  void read(Path file, long at, byte[] bytes, int there, int length) throws IOException {
    FileChannel open = channel;
    if (open == null || !file.equals(path)) {
      close();
      open = FileChannel.open(file, StandardOpenOption.READ);
      channel = open;
      path = file;
    }
    Arrays.fill(bytes, there, length, (byte) 0);
    ByteBuffer buffer = ByteBuffer.wrap(bytes, 0, there);
    FileBytes.fill(String.valueOf(file.getFileName()), open, at, buffer);
  }

  @Override
  public void close() throws IOException {
    if (channel != null) {
      channel.close();
    }
    channel = null;
    path = null;
  }
}
