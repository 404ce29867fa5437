package org.lonefibre.formats.text;

import java.nio.ByteBuffer;
import java.nio.CharBuffer;
import java.nio.charset.Charset;
import java.nio.charset.CodingErrorAction;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import org.jspecify.annotations.Nullable;

/**
 * The beginning of a text: how its characters are written, and its first whole lines.
 *
 * @param skippedBytes length of a byte order mark
 */
record TextHead(Charset charset, int skippedBytes, String lines) {

  private static final byte[] UTF16_LITTLE = {(byte) 0xFF, (byte) 0xFE};
  private static final byte[] UTF16_BIG = {(byte) 0xFE, (byte) 0xFF};
  private static final byte[] UTF8_MARK = {(byte) 0xEF, (byte) 0xBB, (byte) 0xBF};

  /**
   * The beginning of a text; null if the bytes are not those of a text.
   *
   * @param isWhole whether the bytes are the whole file, so that the last line is not cut
   */
  static @Nullable TextHead find(byte[] head, boolean isWhole) {
    if (startsWith(head, UTF16_LITTLE) || startsWith(head, UTF16_BIG)) {
      Charset wide =
          startsWith(head, UTF16_LITTLE) ? StandardCharsets.UTF_16LE : StandardCharsets.UTF_16BE;
      String text = new String(head, 2, (head.length - 2) / 2 * 2, wide);
      boolean control = text.chars().anyMatch(c -> c < ' ' && "\t\r\n".indexOf(c) < 0);
      return control || text.indexOf('\uFFFD') >= 0
          ? null
          : new TextHead(wide, 2, lines(text, isWhole));
    }
    for (byte b : head) {
      if (b >= 0 && b < ' ' && b != '\t' && b != '\r' && b != '\n') {
        return null;
      }
    }
    int skipped = startsWith(head, UTF8_MARK) ? UTF8_MARK.length : 0;
    CharBuffer characters = CharBuffer.allocate(head.length);
    boolean malformed =
        StandardCharsets.UTF_8
            .newDecoder()
            .onMalformedInput(CodingErrorAction.REPORT)
            .decode(ByteBuffer.wrap(head, skipped, head.length - skipped), characters, isWhole)
            .isError();
    Charset charset = malformed ? StandardCharsets.ISO_8859_1 : StandardCharsets.UTF_8;
    String text =
        malformed
            ? new String(head, skipped, head.length - skipped, charset)
            : characters.flip().toString();
    String start = text.stripLeading();
    if (start.startsWith("<") || start.startsWith("{") || start.startsWith("%PDF")) {
      return null;
    }
    return new TextHead(charset, skipped, lines(text, isWhole));
  }

  private static String lines(String text, boolean isWhole) {
    int end = Math.max(text.lastIndexOf('\n'), text.lastIndexOf('\r'));
    return isWhole || end < 0 ? text : text.substring(0, end);
  }

  boolean isLatin() {
    return charset.equals(StandardCharsets.ISO_8859_1);
  }

  private static boolean startsWith(byte[] head, byte[] mark) {
    return head.length >= mark.length && Arrays.equals(head, 0, mark.length, mark, 0, mark.length);
  }
}
