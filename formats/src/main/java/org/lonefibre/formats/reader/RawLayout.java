package org.lonefibre.formats.reader;

import java.nio.ByteOrder;
import java.util.Locale;

/**
 * How numbers stand in a file that says nothing of itself. Nothing of it is ever assumed.
 *
 * @param type kind of the numbers
 * @param order order of the bytes of a number
 * @param channels channels, whose numbers alternate
 * @param offsetBytes bytes before the first number
 */
public record RawLayout(Type type, ByteOrder order, int channels, long offsetBytes) {

  /** Kinds of numbers. */
  public enum Type {
    /** 8 bits, with sign. */
    INT8(1),
    /** 16 bits, with sign. */
    INT16(2),
    /** 24 bits, with sign. */
    INT24(3),
    /** 32 bits, with sign. */
    INT32(4),
    /** 64 bits, with sign. */
    INT64(8),
    /** IEEE 754, 32 bits. */
    FLOAT32(4),
    /** IEEE 754, 64 bits. */
    FLOAT64(8);

    private final int bytes;

    Type(int bytes) {
      this.bytes = bytes;
    }

    /** Bytes of one number. */
    public int bytes() {
      return bytes;
    }

    /** Whether numbers are whole. */
    public boolean isWhole() {
      return this != FLOAT32 && this != FLOAT64;
    }
  }

  /** Names that {@link #of} knows, for messages. */
  public static final String NAMES =
      "int8, int16le, int16be, int24le, int24be, int32le, int32be, int64le, int64be, float32le,"
          + " float32be, float64le or float64be";

  private static final int MOST_CHANNELS = 4096;

  /** Refuses counts that cannot be. */
  public RawLayout {
    if (channels < 1 || channels > MOST_CHANNELS) {
      throw new IllegalArgumentException(
          "channels must be 1 to " + MOST_CHANNELS + ", found " + channels);
    }
    if (offsetBytes < 0) {
      throw new IllegalArgumentException("offsetBytes must be 0 or more, found " + offsetBytes);
    }
  }

  /**
   * A layout by the name of its numbers.
   *
   * @throws IllegalArgumentException if the name is none of {@link #NAMES}
   */
  public static RawLayout of(String name, int channels, long offsetBytes) {
    String upper = name.strip().toUpperCase(Locale.ROOT);
    boolean big = upper.endsWith("BE");
    String kind = big || upper.endsWith("LE") ? upper.substring(0, upper.length() - 2) : upper;
    for (Type type : Type.values()) {
      boolean ordered = big || upper.endsWith("LE");
      if (type.name().equals(kind) && (ordered || type == Type.INT8)) {
        return new RawLayout(
            type, big ? ByteOrder.BIG_ENDIAN : ByteOrder.LITTLE_ENDIAN, channels, offsetBytes);
      }
    }
    throw new IllegalArgumentException(name + " is none of " + NAMES);
  }

  /** Bytes of one number of every channel. */
  public int frameBytes() {
    return channels * type.bytes();
  }
}
