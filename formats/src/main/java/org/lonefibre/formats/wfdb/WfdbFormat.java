package org.lonefibre.formats.wfdb;

import java.lang.invoke.MethodHandles;
import java.lang.invoke.VarHandle;
import java.nio.ByteOrder;
import org.jspecify.annotations.Nullable;

/**
 * How converter numbers stand in a file (signal(5), WFDB Applications Guide). Samples come in packs
 * of a few bytes; the last pack may be cut after a whole sample.
 */
enum WfdbFormat {
  /** First differences of 8 bits. */
  F8(8, 1, 1, 8),
  /** 16 bits, low byte first. */
  F16(16, 1, 2, 16),
  /** 24 bits, low byte first. */
  F24(24, 1, 3, 24),
  /** 32 bits, low byte first. */
  F32(32, 1, 4, 32),
  /** 16 bits, high byte first. */
  F61(61, 1, 2, 16),
  /** 8 bits, offset binary. */
  F80(80, 1, 1, 8),
  /** 16 bits, offset binary, low byte first. */
  F160(160, 1, 2, 16),
  /** Two samples of 12 bits in three bytes. */
  F212(212, 2, 3, 12),
  /** Three samples of 10 bits in four bytes, two of them in the upper bits of words. */
  F310(310, 3, 4, 10),
  /** Three samples of 10 bits in four bytes, one after the other. */
  F311(311, 3, 4, 10);

  private static final VarHandle SHORTS =
      MethodHandles.byteArrayViewVarHandle(short[].class, ByteOrder.LITTLE_ENDIAN);

  final int code;
  final int packSamples;
  final int packBytes;
  final int bits;

  WfdbFormat(int code, int packSamples, int packBytes, int bits) {
    this.code = code;
    this.packSamples = packSamples;
    this.packBytes = packBytes;
    this.bits = bits;
  }

  static @Nullable WfdbFormat find(int code) {
    for (WfdbFormat format : values()) {
      if (format.code == code) {
        return format;
      }
    }
    return null;
  }

  boolean isDifferences() {
    return this == F8;
  }

  /** The number that stands for a missing sample: the lowest there is. Differences have none. */
  int missing() {
    return -1 << (bits - 1);
  }

  /** Highest number of the format; its negative is the lowest that is a sample. */
  double highest() {
    return Math.scalb(1.0, bits - 1) - 1;
  }

  /** Whole samples in a number of bytes. */
  long samplesIn(long bytes) {
    int rest = (int) (bytes % packBytes);
    int more =
        switch (this) {
          case F212 -> rest == 2 ? 1 : 0;
          case F310 -> rest >= 2 ? 1 : 0;
          case F311 -> Math.max(0, rest - 1);
          default -> 0;
        };
    return bytes / packBytes * packSamples + more;
  }

  /** Bytes that a number of samples takes. */
  long bytesOf(long samples) {
    int rest = (int) (samples % packSamples);
    int more =
        switch (this) {
          case F212 -> rest == 0 ? 0 : 2;
          case F310 -> 2 * rest;
          case F311 -> rest == 0 ? 0 : rest + 1;
          default -> 0;
        };
    return samples / packSamples * packBytes + more;
  }

  /**
   * Decodes whole packs; missing bytes at the end are to be zeros.
   *
   * @param values receives {@code packs * packSamples} numbers
   */
  void decode(byte[] bytes, int packs, int[] values) {
    // A loop of its own for the usual formats: they are read twice as fast.
    switch (this) {
      case F16 -> {
        for (int p = 0; p < packs; p++) {
          values[p] = (short) SHORTS.get(bytes, 2 * p);
        }
      }
      case F212 -> {
        for (int p = 0; p < packs; p++) {
          int b = 3 * p;
          values[2 * p] = signed(at(bytes, b) | (bytes[b + 1] & 0x0F) << 8, 12);
          values[2 * p + 1] = signed(at(bytes, b + 2) | (bytes[b + 1] & 0xF0) << 4, 12);
        }
      }
      default -> {
        for (int p = 0; p < packs; p++) {
          decodeOne(bytes, p * packBytes, values, p * packSamples);
        }
      }
    }
  }

  private void decodeOne(byte[] bytes, int b, int[] values, int v) {
    switch (this) {
      case F8 -> values[v] = bytes[b];
      case F24 -> values[v] = word(bytes, b) | bytes[b + 2] << 16;
      case F32 -> values[v] = word(bytes, b) | word(bytes, b + 2) << 16;
      case F61 -> values[v] = at(bytes, b + 1) | bytes[b] << 8;
      case F80 -> values[v] = at(bytes, b) - 128;
      case F160 -> values[v] = word(bytes, b) - 32_768;
      case F310 -> {
        int first = word(bytes, b);
        int second = word(bytes, b + 2);
        values[v] = signed(first >> 1, 10);
        values[v + 1] = signed(second >> 1, 10);
        values[v + 2] = signed(first >> 11 | second >> 11 << 5, 10);
      }
      case F311 -> {
        int all = word(bytes, b) | word(bytes, b + 2) << 16;
        values[v] = signed(all, 10);
        values[v + 1] = signed(all >> 10, 10);
        values[v + 2] = signed(all >> 20, 10);
      }
      case F16, F212 -> throw new IllegalStateException("decoded by a loop of its own");
    }
  }

  private static int at(byte[] bytes, int place) {
    return bytes[place] & 0xFF;
  }

  private static int word(byte[] bytes, int place) {
    return at(bytes, place) | at(bytes, place + 1) << 8;
  }

  private static int signed(int value, int bits) {
    return value << (32 - bits) >> (32 - bits);
  }
}
