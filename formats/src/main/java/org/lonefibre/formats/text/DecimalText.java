package org.lonefibre.formats.text;

import org.lonefibre.formats.reader.SampleRange;

/**
 * Reads one decimal number and remembers how finely it was written. Correctly rounded: short
 * numbers by one exact division (Clinger 1990), others by the JDK.
 */
final class DecimalText {

  private static final int MOST_CHARACTERS = 40;

  /** Powers of ten that a double holds exactly. */
  private static final double[] EXACT_POWERS = powers();

  private static final long MOST_EXACT = 1L << 53;

  private final char mark;
  private double value;
  private int decimals;
  private boolean whole;

  DecimalText(char decimalMark) {
    this.mark = decimalMark;
  }

  private static double[] powers() {
    double[] powers = new double[23];
    powers[0] = 1;
    for (int k = 1; k < powers.length; k++) {
      powers[k] = 10 * powers[k - 1];
    }
    return powers;
  }

  /** Value of the last number. */
  double value() {
    return value;
  }

  /** Decimals of the last number as written; negative if its last digit stands for tens. */
  int decimals() {
    return decimals;
  }

  /** Whether the last number was written without decimals and exponent. */
  boolean isWhole() {
    return whole;
  }

  /** Reads a token; false if it is not a number that can be a sample. */
  boolean readSample(String token) {
    return read(token) && SampleRange.holds(value);
  }

  /** Reads a token; false if it is not a finite number. */
  boolean read(String token) {
    int end = token.length();
    int at = 0;
    while (at < end && token.charAt(at) <= ' ') {
      at++;
    }
    while (end > at && token.charAt(end - 1) <= ' ') {
      end--;
    }
    if (at == end || end - at > MOST_CHARACTERS) {
      return false;
    }
    boolean negative = token.charAt(at) == '-';
    int digitsFrom = negative || token.charAt(at) == '+' ? at + 1 : at;
    long mantissa = 0;
    int digits = 0;
    int after = -1;
    int k = digitsFrom;
    boolean exact = true;
    for (; k < end; k++) {
      char c = token.charAt(k);
      if (c >= '0' && c <= '9') {
        digits++;
        exact &= mantissa < MOST_EXACT / 10 - 1;
        mantissa = exact ? 10 * mantissa + (c - '0') : mantissa;
        after = after < 0 ? after : after + 1;
      } else if (c == mark && after < 0) {
        after = 0;
      } else {
        break;
      }
    }
    if (digits == 0) {
      return false;
    }
    int exponent = 0;
    if (k < end) {
      exponent = exponent(token, k, end);
      if (exponent == Integer.MIN_VALUE) {
        return false;
      }
    }
    whole = after < 0 && k == end;
    decimals = Math.max(after, 0) - exponent;
    if (exact && Math.abs(decimals) < EXACT_POWERS.length) {
      double size =
          decimals >= 0 ? mantissa / EXACT_POWERS[decimals] : mantissa * EXACT_POWERS[-decimals];
      value = negative ? -size : size;
    } else {
      value = Double.parseDouble(token.substring(at, end).replace(mark, '.'));
    }
    return Double.isFinite(value);
  }

  /** The exponent that begins at a place; the smallest integer if there is none to be read. */
  private static int exponent(String token, int from, int end) {
    char c = token.charAt(from);
    if (c != 'e' && c != 'E') {
      return Integer.MIN_VALUE;
    }
    int at = from + 1;
    boolean negative = at < end && token.charAt(at) == '-';
    at += at < end && (negative || token.charAt(at) == '+') ? 1 : 0;
    int digits = end - at;
    if (digits < 1 || digits > 3) {
      return Integer.MIN_VALUE;
    }
    int exponent = 0;
    for (int k = at; k < end; k++) {
      char d = token.charAt(k);
      if (d < '0' || d > '9') {
        return Integer.MIN_VALUE;
      }
      exponent = 10 * exponent + (d - '0');
    }
    return negative ? -exponent : exponent;
  }
}
