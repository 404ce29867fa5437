package org.lonefibre.formats.text;

import java.io.BufferedInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.Reader;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.lonefibre.signal.recording.RecordingFormatException;

/**
 * A plain list of intervals, which is all that many machines export: an interval a line, or the
 * time of its discharge in seconds and the interval.
 *
 * <ul>
 *   <li>A line of {@code -}, {@code block} or {@code blocked} in place of the interval is a blocked
 *       one. Empty lines and lines from {@code #} on are left out; a first line of names is passed
 *       over.
 *   <li>The unit is told, never guessed. A decimal comma is understood where columns are divided
 *       otherwise; a line of two whole numbers with a comma is refused.
 *   <li>Thread rule: immutable.
 * </ul>
 *
 * @param entries intervals in the order of the file
 */
public record IntervalList(List<Entry> entries) {

  /** Units of intervals. */
  public enum Unit {
    /** Microseconds. */
    US(1),
    /** Milliseconds. */
    MS(1000);

    private final double microseconds;

    Unit(double microseconds) {
      this.microseconds = microseconds;
    }
  }

  /**
   * One discharge.
   *
   * @param line its line in the file, from 1
   * @param timeS time of the discharge; null if the list has no times
   * @param intervalUs interval in us; null if it was blocked
   */
  public record Entry(int line, @Nullable Double timeS, @Nullable Double intervalUs) {}

  private static final Set<String> BLOCKED = Set.of("-", "block", "blocked");
  private static final Set<String> NO_NAMES =
      Set.of("block", "blocked", "nan", "inf", "infinity", "na", "null");
  private static final int LONGEST_LINE = 1000;
  private static final int HEAD_BYTES = 1 << 16;

  /** More than a person can discharge in a sitting; engineering choice. */
  private static final int MOST_ENTRIES = 1_000_000;

  /** Longer than any pair or latency; engineering choice. */
  private static final double LONGEST_US = 1e6;

  /** Copies the list. */
  public IntervalList {
    entries = List.copyOf(entries);
  }

  /**
   * Reads a list.
   *
   * @throws RecordingFormatException if a line is no interval; the message names it
   */
  public static IntervalList read(Path file, Unit unit) throws IOException {
    String name = String.valueOf(file.getFileName());
    List<Entry> entries = new ArrayList<>();
    if (Files.isDirectory(file)) {
      throw new RecordingFormatException(
          name, "the file", "a list of intervals", "a folder", "name the lists themselves");
    }
    try (InputStream in = new BufferedInputStream(Files.newInputStream(file))) {
      in.mark(HEAD_BYTES + 1);
      byte[] head = in.readNBytes(HEAD_BYTES);
      TextHead start = TextHead.find(head, head.length < HEAD_BYTES);
      if (start == null) {
        throw new RecordingFormatException(
            name, "byte 0", "lines of text", "none", "export the list as text");
      }
      in.reset();
      in.skipNBytes(start.skippedBytes());
      lines(name, new InputStreamReader(in, start.charset()), unit, entries);
    }
    if (entries.isEmpty()) {
      throw fault(name, 1, "an interval", "none");
    }
    return new IntervalList(entries);
  }

  /** Ends lines at CR, LF or both. */
  private static void lines(String name, Reader reader, Unit unit, List<Entry> entries)
      throws IOException {
    StringBuilder text = new StringBuilder();
    boolean named = false;
    int line = 1;
    int before = 0;
    int c;
    do {
      c = reader.read();
      if (c >= 0 && c != '\n' && c != '\r') {
        if (text.length() == LONGEST_LINE) {
          throw fault(
              name, line, "at most " + LONGEST_LINE + " characters", "a line with more than that");
        }
        text.append((char) c);
      } else if (c != '\n' || before != '\r') {
        String content = text.toString().strip();
        if (!content.isEmpty() && !content.startsWith("#")) {
          if (named || !entries.isEmpty() || !isNames(content)) {
            add(name, content, line, unit, entries);
          }
          named = true;
        }
        text.setLength(0);
        line++;
      }
      before = c;
    } while (c >= 0);
  }

  /** Whether a line names columns; words that stand for a number or its absence do not. */
  private static boolean isNames(String text) {
    return Character.isLetter(text.charAt(0)) && !NO_NAMES.contains(lower(text));
  }

  private static void add(String name, String text, int line, Unit unit, List<Entry> entries)
      throws RecordingFormatException {
    if (entries.size() == MOST_ENTRIES) {
      throw fault(name, line, "at most " + MOST_ENTRIES + " intervals", "more");
    }
    boolean comma = text.indexOf('.') < 0 && text.indexOf(',') >= 0;
    if (comma && text.matches("[+-]?\\d+,\\d+")) {
      throw fault(
          name, line, "one meaning (two columns, or a decimal comma)", text + ", which has two");
    }
    String[] fields = text.split(comma ? "[;\\s]+" : "[;,\\s]+");
    DecimalText number = new DecimalText(comma ? ',' : '.');
    if (fields.length < 1 || fields.length > 2) {
      throw fault(name, line, "an interval, or a time and an interval", text);
    }
    Double timeS = null;
    if (fields.length == 2) {
      if (!number.read(fields[0])) {
        throw fault(name, line, "a time in seconds", fields[0]);
      }
      timeS = number.value();
    }
    String last = fields[fields.length - 1];
    Double intervalUs = null;
    if (!isBlock(last)) {
      if (!number.read(last)) {
        throw fault(name, line, "an interval, or - for a blocked one", last);
      }
      intervalUs = number.value() * unit.microseconds;
      if (Math.abs(intervalUs) > LONGEST_US) {
        throw fault(name, line, "an interval of at most " + LONGEST_US + " us", intervalUs + " us");
      }
    }
    requireAlike(name, line, timeS, entries);
    entries.add(new Entry(line, timeS, intervalUs));
  }

  /** Whether a word stands for a blocked interval. */
  static boolean isBlock(String word) {
    return BLOCKED.contains(lower(word.strip()));
  }

  private static String lower(String text) {
    return text.toLowerCase(Locale.ROOT);
  }

  private static void requireAlike(
      String name, int line, @Nullable Double timeS, List<Entry> entries)
      throws RecordingFormatException {
    if (entries.isEmpty()) {
      return;
    }
    Double before = entries.get(entries.size() - 1).timeS();
    if ((before == null) != (timeS == null)) {
      throw fault(name, line, "as many numbers as on the lines before", "another number of them");
    }
    if (before != null && timeS != null && !(timeS > before)) {
      throw fault(name, line, "a time after " + before + " s", timeS + " s");
    }
  }

  private static RecordingFormatException fault(
      String name, int line, String expected, String found) {
    return new RecordingFormatException(
        name, "line " + line, expected, found, "mend or remove that line");
  }
}
