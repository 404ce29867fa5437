package org.lonefibre.formats.wfdb;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;

/** Makes WFDB files byte by byte, right or wrong as a test wants them. */
public final class WfdbFile {

  private WfdbFile() {}

  /** Writes a text as it is. */
  public static Path header(Path folder, String name, String... lines) throws IOException {
    return Files.writeString(folder.resolve(name), String.join("\n", lines) + "\n");
  }

  public static Path samples(Path folder, String name, int format, int... values)
      throws IOException {
    return Files.write(folder.resolve(name), encode(format, values));
  }

  /** Number of a sample; a simple pattern that differs between channels and fits 10 bits. */
  public static int stored(int channel, long sample) {
    return (int) ((sample * 37 + channel * 101L) % 1_001 - 500);
  }

  /** Channels that share a file, one sample each in a frame. */
  public static int[] interleaved(int channels, int frames) {
    int[] values = new int[channels * frames];
    for (int k = 0; k < values.length; k++) {
      values[k] = stored(k % channels + 1, k / channels);
    }
    return values;
  }

  /** Differences that lead up and down. */
  public static int[] differences(int samples) {
    int[] values = new int[samples];
    for (int k = 0; k < samples; k++) {
      values[k] = k % 200 < 100 ? k % 7 : -(k % 7);
    }
    return values;
  }

  /** Encodes numbers as signal(5) describes; for format 8 they are the differences. */
  public static byte[] encode(int format, int... values) {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    switch (format) {
      case 8 -> each(out, 1, 0, values);
      case 16 -> each(out, 2, 0, values);
      case 24 -> each(out, 3, 0, values);
      case 32 -> each(out, 4, 0, values);
      case 80 -> each(out, 1, 128, values);
      case 160 -> each(out, 2, 32_768, values);
      case 61 -> {
        for (int value : values) {
          out.write(value >> 8);
          out.write(value);
        }
      }
      case 212 -> {
        for (int k = 0; k < values.length; k += 2) {
          int first = values[k] & 0xFFF;
          int second = k + 1 < values.length ? values[k + 1] & 0xFFF : 0;
          out.write(first);
          out.write(first >> 8 | second >> 8 << 4);
          if (k + 1 < values.length) {
            out.write(second);
          }
        }
      }
      case 310 -> {
        for (int k = 0; k < values.length; k += 3) {
          int third = at(values, k + 2);
          word(out, at(values, k) << 1 | (third & 0x1F) << 11);
          word(out, at(values, k + 1) << 1 | third >> 5 << 11);
        }
      }
      case 311 -> {
        for (int k = 0; k < values.length; k += 3) {
          int all = at(values, k) | at(values, k + 1) << 10 | at(values, k + 2) << 20;
          word(out, all);
          word(out, all >> 16);
        }
      }
      default -> throw new IllegalArgumentException("no format " + format);
    }
    return out.toByteArray();
  }

  private static int at(int[] values, int k) {
    return k < values.length ? values[k] & 0x3FF : 0;
  }

  private static void word(ByteArrayOutputStream out, int value) {
    out.write(value);
    out.write(value >> 8);
  }

  private static void each(ByteArrayOutputStream out, int bytes, int offset, int... values) {
    for (int value : values) {
      for (int b = 0; b < bytes; b++) {
        out.write(value + offset >> 8 * b);
      }
    }
  }

  /** An annotation with a text; the time counts from the one before and may be negative. */
  public static byte[] annotation(int type, int after, String text) {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    if (after < 0 || after > 1023) {
      word(out, 59 << 10);
      word(out, after >> 16);
      word(out, after);
      word(out, type << 10);
    } else {
      word(out, type << 10 | after);
    }
    byte[] bytes = text.getBytes(StandardCharsets.UTF_8);
    if (bytes.length > 0) {
      word(out, 63 << 10 | bytes.length);
      out.writeBytes(bytes);
      if (bytes.length % 2 == 1) {
        out.write(0);
      }
    }
    return out.toByteArray();
  }

  /** Writes annotations and their end. */
  public static Path annotations(Path folder, String name, byte[]... all) throws IOException {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    for (byte[] one : all) {
      out.writeBytes(one);
    }
    word(out, 0);
    return Files.write(folder.resolve(name), out.toByteArray());
  }
}
