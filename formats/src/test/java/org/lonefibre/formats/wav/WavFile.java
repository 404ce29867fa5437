package org.lonefibre.formats.wav;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.function.LongToDoubleFunction;

/** Makes WAV files byte by byte, right or wrong as a test wants them. */
public final class WavFile {

  private record Chunk(String name, long size, byte[] content) {}

  private final String form;
  private final List<Chunk> chunks = new ArrayList<>();

  private WavFile(String form) {
    this.form = form;
  }

  /** An empty file of a form: RIFF, RIFX, RF64 or BW64. */
  public static WavFile of(String form) {
    return new WavFile(form);
  }

  private ByteBuffer buffer(int size) {
    return ByteBuffer.allocate(size)
        .order(form.equals("RIFX") ? ByteOrder.BIG_ENDIAN : ByteOrder.LITTLE_ENDIAN);
  }

  /** A format chunk without extension; rates and sizes follow from the others. */
  public WavFile format(int code, int channels, int rateHz, int bits) {
    int frame = channels * ((bits + 7) / 8);
    return format(code, channels, rateHz, rateHz * frame, frame, bits);
  }

  public WavFile format(
      int code, int channels, int rateHz, int bytesPerSecond, int frame, int bits) {
    return chunk("fmt ", fields(16, code, channels, rateHz, bytesPerSecond, frame, bits).array());
  }

  private ByteBuffer fields(
      int size, int code, int channels, int rateHz, int bytesPerSecond, int frame, int bits) {
    ByteBuffer fields = buffer(size);
    fields.putShort((short) code).putShort((short) channels).putInt(rateHz).putInt(bytesPerSecond);
    fields.putShort((short) frame).putShort((short) bits);
    return fields;
  }

  /** An extensible format chunk. */
  public WavFile extensible(int code, int channels, int rateHz, int bits, int validBits) {
    int frame = channels * (bits / 8);
    ByteBuffer fields = fields(40, 0xFFFE, channels, rateHz, rateHz * frame, frame, bits);
    fields.putShort((short) 22).putShort((short) validBits).putInt(0).putInt(code);
    fields.putShort((short) 0).putShort((short) 0x10);
    fields.put(new byte[] {(byte) 0x80, 0, 0, (byte) 0xAA, 0, 0x38, (byte) 0x9B, 0x71});
    return chunk("fmt ", fields.array());
  }

  /** The chunk of sizes of RF64 and BW64. */
  public WavFile sizes(long dataBytes) {
    return chunk("ds64", buffer(28).putLong(0).putLong(dataBytes).putLong(0).array());
  }

  public WavFile chunk(String name, byte... content) {
    return chunk(name, content.length, content);
  }

  /** A chunk that declares a size of its own. */
  public WavFile chunk(String name, long size, byte... content) {
    chunks.add(new Chunk(name, size, content));
    return this;
  }

  /** Integers of some bytes each. */
  public byte[] integers(int bytesEach, long... values) {
    ByteBuffer out = buffer(bytesEach * values.length);
    for (long value : values) {
      for (int b = 0; b < bytesEach; b++) {
        boolean isLittle = out.order() == ByteOrder.LITTLE_ENDIAN;
        out.put((byte) (value >> 8 * (isLittle ? b : bytesEach - 1 - b)));
      }
    }
    return out.array();
  }

  /** Floating-point numbers of 4 or 8 bytes. */
  public byte[] floats(int bytesEach, int count, LongToDoubleFunction value) {
    ByteBuffer out = buffer(bytesEach * count);
    for (int k = 0; k < count; k++) {
      double number = value.applyAsDouble(k);
      if (bytesEach == 4) {
        out.putFloat((float) number);
      } else {
        out.putDouble(number);
      }
    }
    return out.array();
  }

  public byte[] bytes() {
    int size = 12;
    for (Chunk chunk : chunks) {
      size += 8 + chunk.content.length + chunk.content.length % 2;
    }
    ByteBuffer out = buffer(size);
    out.put(form.getBytes(StandardCharsets.US_ASCII)).putInt(size - 8);
    out.put("WAVE".getBytes(StandardCharsets.US_ASCII));
    for (Chunk chunk : chunks) {
      out.put(chunk.name.getBytes(StandardCharsets.ISO_8859_1)).putInt((int) chunk.size);
      out.put(chunk.content);
      if (chunk.content.length % 2 == 1) {
        out.put((byte) 0);
      }
    }
    return out.array();
  }

  public Path write(Path folder, String name) throws IOException {
    return Files.write(folder.resolve(name), bytes());
  }
}
