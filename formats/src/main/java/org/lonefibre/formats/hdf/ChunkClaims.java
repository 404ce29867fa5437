package org.lonefibre.formats.hdf;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import org.lonefibre.signal.recording.RecordingFormatException;

/**
 * Refuses a small file whose tables of chunks claim more chunks than it has bytes: the library
 * makes room for them before it checks their sum. Layout of the tables: HDF5 File Format
 * Specification 3.0, extensible and fixed array index (from memory, held against files of h5py).
 */
final class ChunkClaims {

  /** What a larger file claims is no more than a few times its size. */
  private static final int LARGEST_FILE = 1 << 26;

  private static final byte[] EXTENSIBLE = "EAHD".getBytes(StandardCharsets.US_ASCII);
  private static final byte[] FIXED = "FAHD".getBytes(StandardCharsets.US_ASCII);

  private static final int EXTENSIBLE_BYTES = 12;
  private static final int EXTENSIBLE_COUNTS = 6;
  private static final int FIXED_BYTES = 8;

  private ChunkClaims() {}

  /**
   * @param lengthBytes bytes of a length in this file
   */
  static void check(String name, ByteBuffer file, int lengthBytes) throws RecordingFormatException {
    int size = file.capacity();
    if (size > LARGEST_FILE || lengthBytes != 4 && lengthBytes != 8) {
      return;
    }
    ByteBuffer bytes = file.duplicate().clear().order(ByteOrder.LITTLE_ENDIAN);
    for (int at = 0; at + EXTENSIBLE_BYTES < size; at++) {
      byte first = bytes.get(at);
      if (first != 'E' && first != 'F') {
        continue;
      }
      boolean extensible = stands(bytes, at, EXTENSIBLE);
      if (extensible || stands(bytes, at, FIXED)) {
        int counts = extensible ? EXTENSIBLE_COUNTS : 1;
        int from = at + (extensible ? EXTENSIBLE_BYTES : FIXED_BYTES);
        for (int c = 0; c < counts && from + (c + 1) * lengthBytes <= size; c++) {
          require(name, bytes, from + c * lengthBytes, lengthBytes);
        }
      }
    }
  }

  private static boolean stands(ByteBuffer bytes, int at, byte[] signature) {
    for (int k = 0; k < signature.length; k++) {
      if (bytes.get(at + k) != signature[k]) {
        return false;
      }
    }
    return true;
  }

  private static void require(String name, ByteBuffer bytes, int at, int lengthBytes)
      throws RecordingFormatException {
    long count = lengthBytes == 8 ? bytes.getLong(at) : bytes.getInt(at) & 0xFFFF_FFFFL;
    if (count < 0 || count > bytes.capacity()) {
      throw new RecordingFormatException(
          name,
          "byte " + at,
          "a table of at most " + bytes.capacity() + " chunks or bytes, the size of the file",
          Long.toUnsignedString(count),
          "save it again, or export it as EDF+");
    }
  }
}
