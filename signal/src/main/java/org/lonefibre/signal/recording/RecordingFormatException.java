package org.lonefibre.signal.recording;

import java.io.IOException;
import java.io.Serial;

/**
 * A file that cannot be read as a recording: which file, where in it, what was expected, what was
 * found, and what to do. Its message is the one line shown to the user; control characters are made
 * visible.
 */
public final class RecordingFormatException extends IOException {

  @Serial private static final long serialVersionUID = 1L;

  private static final int LONGEST = 10_000;
  private static final int LONGEST_FOUND = 80;

  private final String file;
  private final String place;
  private final String reason;

  /**
   * @param file name of the file
   * @param place byte offset, line or field, for example {@code byte 236, number of records}
   * @param expected what should stand there
   * @param found what stands there; its beginning is shown
   * @param remedy what the user can do
   */
  public RecordingFormatException(
      String file, String place, String expected, String found, String remedy) {
    super(file + ": " + shown(place) + ": " + reason(expected, found, remedy));
    this.file = file;
    this.place = shown(place);
    this.reason = reason(expected, found, remedy);
  }

  /** Name of the file. */
  public String file() {
    return file;
  }

  /** Where in the file. */
  public String place() {
    return place;
  }

  /** What was expected, what was found, what to do. */
  public String reason() {
    return reason;
  }

  private static String reason(String expected, String found, String remedy) {
    return "expected "
        + shown(expected)
        + ", found "
        + visible(found, LONGEST_FOUND)
        + "; "
        + shown(remedy);
  }

  private static String shown(String text) {
    return visible(text, LONGEST);
  }

  private static String visible(String text, int longest) {
    StringBuilder shown = new StringBuilder();
    text.codePoints()
        .limit(longest)
        .forEach(
            c -> {
              if (Character.isISOControl(c)) {
                shown.append(String.format(java.util.Locale.ROOT, "\\x%02x", c));
              } else {
                shown.appendCodePoint(c);
              }
            });
    return shown.toString();
  }
}
