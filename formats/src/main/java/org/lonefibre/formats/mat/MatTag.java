package org.lonefibre.formats.mat;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;

/**
 * The beginning of an element: its type, and where its bytes stand (MAT-File Format, The MathWorks,
 * from memory and held against files of SciPy and of the MAT File Library).
 *
 * @param type kind of data
 * @param at position of its first byte
 * @param bytes how many there are
 * @param next position of the element after it
 */
record MatTag(int type, long at, long bytes, long next) {

  static final int MATRIX = 14;
  static final int COMPRESSED = 15;

  private static final int TAG_BYTES = 8;
  private static final int SMALL_BYTES = 4;

  /**
   * Reads the tag at a position.
   *
   * @param end where the element that holds this one ends
   */
  static MatTag read(MatBytes bytes, long position, long end, ByteOrder order) throws IOException {
    if (end - position < TAG_BYTES) {
      throw bytes.fault(position, "an element of 8 bytes or more", (end - position) + " bytes");
    }
    ByteBuffer tag = bytes.some(position, TAG_BYTES, order);
    int first = tag.getInt();
    int small = first >>> 16;
    if (small > SMALL_BYTES) {
      throw bytes.fault(position, "a type of data", Integer.toString(first));
    }
    if (small > 0) {
      return new MatTag(first & 0xFFFF, position + SMALL_BYTES, small, position + TAG_BYTES);
    }
    long count = tag.getInt() & 0xFFFF_FFFFL;
    long at = position + TAG_BYTES;
    if (count > end - at) {
      throw bytes.fault(
          position, "an element of at most " + (end - at) + " bytes", count + " bytes");
    }
    // Compressed elements are not filled up to whole 8 bytes; the last filling may be left out.
    long filled = first == COMPRESSED ? count : (count + 7) / 8 * 8;
    return new MatTag(first, at, count, Math.min(end, at + filled));
  }
}
