package org.lonefibre.formats.raw;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.channels.FileChannel;
import org.lonefibre.formats.reader.FileBytes;
import org.lonefibre.formats.reader.RawLayout;
import org.lonefibre.formats.reader.SampleSource;

/** Numbers of one channel among alternating ones; every call has its own buffer. */
final class RawSource implements SampleSource {

  /** Fits the second-level cache of usual processors; engineering choice. */
  private static final int CHUNK_BYTES = 1 << 18;

  private final String name;
  private final FileChannel file;
  private final RawLayout layout;
  private final int channel;
  private final long count;

  RawSource(String name, FileChannel file, RawLayout layout, int channel, long count) {
    this.name = name;
    this.file = file;
    this.layout = layout;
    this.channel = channel;
    this.count = count;
  }

  @Override
  public long count() {
    return count;
  }

  @Override
  public Missing missing() {
    return layout.type().isWhole() ? Missing.NEVER : Missing.NOT_FINITE;
  }

  @Override
  public void read(long first, double[] destination, int offset, int length) throws IOException {
    int frame = layout.frameBytes();
    int atOnce = Math.max(1, CHUNK_BYTES / frame);
    ByteBuffer buffer = ByteBuffer.allocate(Math.min(Math.max(1, length), atOnce) * frame);
    buffer.order(layout.order());
    for (int done = 0; done < length; done += atOnce) {
      int frames = Math.min(atOnce, length - done);
      buffer.clear().limit(frames * frame);
      FileBytes.fill(name, file, layout.offsetBytes() + (first + done) * frame, buffer);
      for (int k = 0; k < frames; k++) {
        destination[offset + done + k] =
            number(buffer, k * frame + channel * layout.type().bytes());
      }
    }
  }

  private double number(ByteBuffer buffer, int at) {
    return switch (layout.type()) {
      case INT8 -> buffer.get(at);
      case INT16 -> buffer.getShort(at);
      case INT24 -> int24(buffer, at);
      case INT32 -> buffer.getInt(at);
      case INT64 -> buffer.getLong(at);
      case FLOAT32 -> buffer.getFloat(at);
      case FLOAT64 -> buffer.getDouble(at);
    };
  }

  private static int int24(ByteBuffer buffer, int at) {
    boolean little = buffer.order() == ByteOrder.LITTLE_ENDIAN;
    int low = buffer.get(little ? at : at + 2) & 0xFF;
    int middle = buffer.get(at + 1) & 0xFF;
    int high = buffer.get(little ? at + 2 : at);
    return high << 16 | middle << 8 | low;
  }
}
