package org.lonefibre.formats.edf;

import java.math.BigDecimal;
import org.jspecify.annotations.Nullable;

/**
 * Decimal numbers as EDF writes them. Exponents are read, but only such as a recording can need: a
 * number like 1E999999999 would otherwise fill the memory when it is subtracted.
 */
final class EdfNumber {

  private static final int MOST_CHARACTERS = 40;
  private static final int MOST_EXPONENT = 18;

  private EdfNumber() {}

  /**
   * The number a text says.
   *
   * @throws NumberFormatException if it says none, or one no recording can need
   */
  static BigDecimal parse(String text) {
    if (text.length() > MOST_CHARACTERS) {
      throw new NumberFormatException("number of " + text.length() + " characters");
    }
    BigDecimal value = new BigDecimal(text);
    if (value.scale() < -MOST_EXPONENT || value.scale() > MOST_CHARACTERS) {
      throw new NumberFormatException("exponent out of range");
    }
    return value;
  }

  /** The number a text says; null if it says none. */
  static @Nullable BigDecimal find(String text) {
    try {
      return parse(text);
    } catch (NumberFormatException e) {
      return null;
    }
  }
}
