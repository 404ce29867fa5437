package org.lonefibre.formats.text;

import java.io.IOException;
import java.io.Reader;
import org.jspecify.annotations.Nullable;
import org.lonefibre.signal.recording.RecordingFormatException;

/**
 * A text of one long line: numbers with white space between them, or numbers of one width that may
 * stand close together.
 *
 * <ul>
 *   <li>A width is believed if every number of the beginning has a decimal mark at the same place,
 *       and ends where its field ends; whole numbers without space have no one width.
 *   <li>A line of fewer than {@value #LEAST_NUMBERS} numbers is a row of a table.
 * </ul>
 *
 * @param width characters of a number; 0 if white space divides them
 */
record OneLine(int width, char decimalMark) {

  static final int LEAST_NUMBERS = 64;
  private static final int WIDEST = 32;
  private static final int LONGEST_TOKEN = 64;

  /**
   * How a line is divided; null if the text has several lines or is none of numbers.
   *
   * @param isWhole whether the text is all there is, so that the last number is not cut
   */
  static @Nullable OneLine find(String text, boolean isWhole) {
    String line = text.replaceAll("[\\r\\n]+$", "");
    if (line.indexOf('\n') >= 0
        || line.indexOf('\r') >= 0
        || line.length() < 2 * LEAST_NUMBERS - 1) {
      return null;
    }
    for (char mark : new char[] {'.', ','}) {
      if (isSpaced(line, mark, isWhole)) {
        return new OneLine(0, mark);
      }
    }
    for (int width = 2; width <= WIDEST; width++) {
      for (char mark : new char[] {'.', ','}) {
        if (isFixed(line, width, mark, isWhole)) {
          return new OneLine(width, mark);
        }
      }
    }
    return null;
  }

  private static boolean isSpaced(String line, char mark, boolean isWhole) {
    String[] tokens = line.strip().split("\\s+");
    int count = tokens.length - (isWhole ? 0 : 1);
    DecimalText number = new DecimalText(mark);
    for (int k = 0; k < count; k++) {
      if (!number.read(tokens[k])) {
        return false;
      }
    }
    return count >= LEAST_NUMBERS;
  }

  private static boolean isFixed(String line, int width, char mark, boolean isWhole) {
    int count = line.length() / width;
    if (count < LEAST_NUMBERS || isWhole && line.length() % width != 0) {
      return false;
    }
    DecimalText number = new DecimalText(mark);
    int place = -1;
    for (int k = 0; k < count; k++) {
      String field = line.substring(k * width, (k + 1) * width);
      if (field.indexOf(mark) < 0 || field.endsWith(" ") || !number.read(field)) {
        return false;
      }
      if (k > 0 && field.indexOf(mark) != place) {
        return false;
      }
      place = field.indexOf(mark);
    }
    return true;
  }

  /** Reads all numbers. */
  NumberColumn parse(String file, Reader reader) throws IOException {
    NumberColumn numbers = new NumberColumn();
    DecimalText number = new DecimalText(decimalMark);
    StringBuilder token = new StringBuilder();
    long at = 0;
    int c;
    while ((c = reader.read()) >= 0) {
      at++;
      boolean space = c <= ' ';
      boolean lineEnd = c == '\n' || c == '\r';
      if (width == 0 ? !space : !lineEnd) {
        token.append((char) c);
      }
      boolean full = width == 0 ? space && !token.isEmpty() : token.length() == width;
      if (full || token.length() > LONGEST_TOKEN) {
        add(file, numbers, number, token, at);
      }
    }
    if (!token.toString().isBlank()) {
      add(file, numbers, number, token, at);
    }
    return numbers;
  }

  private static void add(
      String file, NumberColumn numbers, DecimalText number, StringBuilder token, long at)
      throws RecordingFormatException {
    if (!number.readSample(token.toString())) {
      throw new RecordingFormatException(
          file,
          "line 1, before character " + (at + 1),
          "a number",
          token.toString(),
          "mend or remove it");
    }
    numbers.add(number.value());
    token.setLength(0);
  }
}
