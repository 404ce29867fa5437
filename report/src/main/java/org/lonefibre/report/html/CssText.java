package org.lonefibre.report.html;

import java.util.Locale;
import org.lonefibre.report.document.PlainText;

/** Writes text as a CSS string that can end neither the string nor the style element. */
final class CssText {

  private CssText() {}

  static String quoted(String text) {
    StringBuilder quoted = new StringBuilder("\"");
    PlainText.of(text)
        .codePoints()
        .forEach(
            c -> {
              boolean harmless =
                  (c >= 'a' && c <= 'z')
                      || (c >= 'A' && c <= 'Z')
                      || (c >= '0' && c <= '9')
                      || c == ' '
                      || c == ','
                      || c == '-'
                      || c == '.'
                      || c == '·';
              if (harmless) {
                quoted.appendCodePoint(c);
              } else {
                quoted.append(String.format(Locale.ROOT, "\\%06x ", c));
              }
            });
    return quoted.append('"').toString();
  }
}
