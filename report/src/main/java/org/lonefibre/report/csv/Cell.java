package org.lonefibre.report.csv;

import java.math.BigDecimal;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/** Cells of a table. */
final class Cell {

  /** What spreadsheets take for the start of a formula, or strip before they look. */
  private static final String FORMULA_STARTS = "=+-@\t\r\n\uFF1D\uFF0B\uFF0D\uFF20|%";

  private Cell() {}

  /**
   * Text from a file or a person. An apostrophe is put before what would start a formula; control
   * characters become spaces.
   */
  static String text(@Nullable String text) {
    if (text == null || text.isEmpty()) {
      return "";
    }
    String stripped = text.stripLeading();
    boolean guarded =
        FORMULA_STARTS.indexOf(text.charAt(0)) >= 0
            || (!stripped.isEmpty() && FORMULA_STARTS.indexOf(stripped.charAt(0)) >= 0);
    StringBuilder plain = new StringBuilder(guarded ? "'" : "");
    text.codePoints().forEach(c -> plain.appendCodePoint(Character.isISOControl(c) ? ' ' : c));
    return plain.toString();
  }

  /** A number with every digit, never in exponents. */
  static String number(@Nullable Double value) {
    if (value == null) {
      return "";
    }
    BigDecimal digits = BigDecimal.valueOf(value);
    return digits.signum() == 0 ? "0" : digits.stripTrailingZeros().toPlainString();
  }

  /** A count. */
  static String count(@Nullable Integer value) {
    return value == null ? "" : value.toString();
  }

  /** The word of an enum in documents. */
  static String word(@Nullable Enum<?> constant) {
    return constant == null ? "" : constant.name().toLowerCase(Locale.ROOT).replace('_', '-');
  }
}
