package org.lonefibre.formats.mat;

import java.nio.ByteBuffer;
import org.jspecify.annotations.Nullable;
import org.lonefibre.formats.reader.SourceRecording.WholeRange;

/** Kinds of numbers: how they are stored, and which class of a matrix they make. */
enum MatType {
  INT8(1, 8, 1),
  UINT8(2, 9, 1),
  INT16(3, 10, 2),
  UINT16(4, 11, 2),
  INT32(5, 12, 4),
  UINT32(6, 13, 4),
  SINGLE(7, 7, 4),
  DOUBLE(9, 6, 8),
  INT64(12, 14, 8),
  UINT64(13, 15, 8);

  private static final double TWO_TO_64 = 0x1p64;

  private final int stored;
  private final int matrixClass;
  final int width;

  MatType(int stored, int matrixClass, int width) {
    this.stored = stored;
    this.matrixClass = matrixClass;
    this.width = width;
  }

  /** The kind that is stored under a number; null if none is. */
  static @Nullable MatType findStored(int number) {
    for (MatType type : values()) {
      if (type.stored == number) {
        return type;
      }
    }
    return null;
  }

  /** The kind that the class of a matrix names; null if it is no class of numbers. */
  static @Nullable MatType findClass(int number) {
    for (MatType type : values()) {
      if (type.matrixClass == number) {
        return type;
      }
    }
    return null;
  }

  boolean isReal() {
    return this == SINGLE || this == DOUBLE;
  }

  double number(ByteBuffer buffer, int at) {
    return switch (this) {
      case INT8 -> buffer.get(at);
      case UINT8 -> buffer.get(at) & 0xFF;
      case INT16 -> buffer.getShort(at);
      case UINT16 -> buffer.getShort(at) & 0xFFFF;
      case INT32 -> buffer.getInt(at);
      case UINT32 -> buffer.getInt(at) & 0xFFFF_FFFFL;
      case SINGLE -> buffer.getFloat(at);
      case DOUBLE -> buffer.getDouble(at);
      case INT64 -> buffer.getLong(at);
      case UINT64 -> unsigned(buffer.getLong(at));
    };
  }

  private static double unsigned(long bits) {
    return bits >= 0 ? bits : bits + TWO_TO_64;
  }

  /** Range of whole numbers that a double holds exactly; null for other kinds. */
  @Nullable WholeRange findRange() {
    if (isReal() || width > 4) {
      return null;
    }
    double half = Math.pow(2, 8.0 * width - 1);
    boolean signed = this == INT8 || this == INT16 || this == INT32;
    return signed ? new WholeRange(-half, half - 1) : new WholeRange(0, 2 * half - 1);
  }
}
