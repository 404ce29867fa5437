package org.lonefibre.formats.text;

import java.nio.ByteBuffer;
import java.nio.CharBuffer;
import java.nio.charset.Charset;
import java.nio.charset.CodingErrorAction;
import java.nio.charset.StandardCharsets;
import org.jspecify.annotations.Nullable;

/**
 * The beginning of a text: how its characters are written, and its first whole lines.
 *
 * @param skippedBytes length of a byte order mark
 */
record TextHead(Charset charset, int skippedBytes, String lines) {

  private static final byte[] UTF8_MARK = {(byte) 0xEF, (byte) 0xBB, (byte) 0xBF};

  /**
   * The beginning of a text; null if the bytes are not those of a text.
   *
   * @param isWhole whether the bytes are the whole file, so that the last line is not cut
   */
  static @Nullable TextHead find(byte[] head, boolean isWhole) {
    for (byte b : head) {
      if (b >= 0 && b < ' ' && b != '\t' && b != '\r' && b != '\n') {
        return null;
      }
    }
    int skipped = startsWithMark(head) ? UTF8_MARK.length : 0;
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
    int end = Math.max(text.lastIndexOf('\n'), text.lastIndexOf('\r'));
    return new TextHead(charset, skipped, isWhole || end < 0 ? text : text.substring(0, end));
  }

  boolean isLatin() {
    return charset.equals(StandardCharsets.ISO_8859_1);
  }

  private static boolean startsWithMark(byte[] head) {
    return head.length >= UTF8_MARK.length
        && head[0] == UTF8_MARK[0]
        && head[1] == UTF8_MARK[1]
        && head[2] == UTF8_MARK[2];
  }
}
