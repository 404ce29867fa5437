package org.lonefibre.formats.fuzz;

import java.io.IOException;
import java.nio.ByteOrder;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import org.lonefibre.formats.reader.RawLayout;
import org.lonefibre.formats.reader.RawLayout.Type;

/**
 * Bare numbers and what a person tells of them in one row of bytes: kind and order, channels, bytes
 * before the first number; then the file.
 */
final class RawBundle {

  private static final int TOLD = 3;

  private RawBundle() {}

  /**
   * @param type twice the place of the kind of number, and 1 for the highest byte first
   */
  static byte[] pack(int type, int channels, int offsetBytes, byte[] file) {
    byte[] all = new byte[TOLD + file.length];
    all[0] = (byte) type;
    all[1] = (byte) (channels - 1);
    all[2] = (byte) offsetBytes;
    System.arraycopy(file, 0, all, TOLD, file.length);
    return all;
  }

  static RawLayout layout(byte[] input) {
    Type[] types = Type.values();
    int type = told(input, 0) % (2 * types.length);
    return new RawLayout(
        types[type / 2],
        type % 2 == 1 ? ByteOrder.BIG_ENDIAN : ByteOrder.LITTLE_ENDIAN,
        told(input, 1) + 1,
        told(input, 2));
  }

  static Path lay(Path folder, byte[] input) throws IOException {
    int from = Math.min(TOLD, input.length);
    return Files.write(folder.resolve("input"), Arrays.copyOfRange(input, from, input.length));
  }

  private static int told(byte[] input, int at) {
    return at < input.length ? input[at] & 0xFF : 0;
  }
}
