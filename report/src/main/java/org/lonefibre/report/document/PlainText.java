package org.lonefibre.report.document;

/**
 * Keeps only characters that XML allows and that do not turn the reading direction. Thread rule: no
 * state.
 */
public final class PlainText {

  private static final int REPLACEMENT = 0xFFFD;

  private PlainText() {}

  /** The text, each character that no document may hold replaced by U+FFFD. */
  public static String of(String text) {
    StringBuilder plain = new StringBuilder(text.length());
    text.codePoints().forEach(c -> plain.appendCodePoint(isPlain(c) ? c : REPLACEMENT));
    return plain.toString();
  }

  private static boolean isPlain(int c) {
    if (c < 0x20) {
      return c == '\n' || c == '\t' || c == '\r';
    }
    boolean control = c >= 0x7F && c <= 0x9F;
    boolean surrogate = c >= 0xD800 && c <= 0xDFFF;
    boolean turnsDirection =
        (c >= 0x202A && c <= 0x202E) || (c >= 0x2066 && c <= 0x2069) || c == 0x200F || c == 0x200E;
    boolean nonCharacter = (c & 0xFFFE) == 0xFFFE || (c >= 0xFDD0 && c <= 0xFDEF);
    return !(control || surrogate || turnsDirection || nonCharacter);
  }
}
