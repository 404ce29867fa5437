package org.lonefibre.formats.wfdb;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import org.lonefibre.signal.recording.RecordingFormatException;
import org.lonefibre.signal.recording.TimeBase;

/**
 * The header of a record, as written.
 *
 * @param file name of the file it stands in
 * @param record name of the record
 * @param rate frames in a second; null if the header gives none
 * @param frames frames declared; 0 if the header gives none
 * @param isStartInvalid whether a start is given that is none
 * @param signals empty if the record has several parts
 * @param parts empty if the record has one part
 */
record WfdbHeader(
    String file,
    String record,
    @Nullable TimeBase rate,
    long frames,
    @Nullable LocalDateTime start,
    boolean isStartInvalid,
    boolean isTextValid,
    List<WfdbSignalLine> signals,
    List<PartLine> parts) {

  /** Longer headers are none; engineering choice. */
  private static final int MOST_BYTES = 1 << 24;

  private static final int MOST_SIGNALS = 4096;

  /** More frames than this could not be counted in samples; engineering choice. */
  static final long MOST_FRAMES = 1L << 38;

  private static final Pattern RECORD = Pattern.compile("([A-Za-z0-9_.-]+)(?:/(\\d{1,9}))?");
  private static final Pattern RATE = Pattern.compile("([^/(]+)(?:/.*|\\(.*)?");
  private static final Pattern SIGNAL_START =
      Pattern.compile(
          "(?=\\S*[^\\s\\d.,;+eE-])\\S+[ \\t]+\\d+(x\\d+)?(:\\d+)?(\\+\\d+)?([ \\t].*)?");
  private static final Pattern PART_START = Pattern.compile("\\S+[ \\t]+\\d+[ \\t]*");

  /**
   * One part of a record in several parts.
   *
   * @param record its name; {@code ~} for a gap
   * @param frames its length
   */
  record PartLine(WfdbFields fields, String record, long frames) {

    boolean isGap() {
      return record.equals(WfdbSignalLine.NO_FILE);
    }
  }

  WfdbHeader {
    signals = List.copyOf(signals);
    parts = List.copyOf(parts);
  }

  /** Whether a text begins like a header: the line of a record, then one of a signal or part. */
  static boolean isHeader(byte[] head) {
    List<String> lines = new ArrayList<>();
    for (String line : new String(head, StandardCharsets.ISO_8859_1).split("\\r?\\n", 5000)) {
      if (line.indexOf('\0') >= 0) {
        return false;
      }
      if (!line.isBlank() && !line.strip().startsWith("#")) {
        lines.add(line.strip());
      }
      if (lines.size() == 2) {
        break;
      }
    }
    if (lines.size() < 2) {
      return false;
    }
    String[] first = lines.get(0).split("[ \\t]+", 3);
    Matcher record = RECORD.matcher(first[0]);
    if (first.length < 2 || !record.matches() || !first[1].matches("\\d{1,4}")) {
      return false;
    }
    boolean hasParts = record.group(2) != null;
    return (hasParts ? PART_START : SIGNAL_START).matcher(lines.get(1)).matches();
  }

  static WfdbHeader read(Path path) throws IOException {
    String file = String.valueOf(path.getFileName());
    byte[] bytes;
    try (InputStream in = Files.newInputStream(path)) {
      bytes = in.readNBytes(MOST_BYTES + 1);
    }
    WfdbFields whole = new WfdbFields(file, 1);
    if (bytes.length > MOST_BYTES) {
      throw whole.fault("header", "at most " + MOST_BYTES + " bytes", "more");
    }
    String text = new String(bytes, StandardCharsets.UTF_8);
    boolean isTextValid = text.indexOf('\uFFFD') < 0;
    text = isTextValid ? text : new String(bytes, StandardCharsets.ISO_8859_1);
    return parse(file, text, isTextValid);
  }

  private static WfdbHeader parse(String file, String text, boolean isTextValid)
      throws RecordingFormatException {
    List<String> lines = new ArrayList<>();
    List<WfdbFields> places = new ArrayList<>();
    int number = 0;
    for (String line : (Iterable<String>) text.lines()::iterator) {
      number++;
      if (!line.isBlank() && !line.strip().startsWith("#")) {
        lines.add(line.strip());
        places.add(new WfdbFields(file, number));
      }
    }
    if (lines.isEmpty()) {
      throw new WfdbFields(file, 1).fault("record", "the name of a record", "");
    }
    WfdbFields at = places.get(0);
    String[] field = lines.get(0).split("[ \\t]+", 7);
    Matcher record = RECORD.matcher(field[0]);
    if (!record.matches()) {
      throw at.fault("record", "the name of a record", field[0]);
    }
    boolean hasParts = record.group(2) != null;
    int signals =
        (int) at.whole("number of signals", field.length > 1 ? field[1] : "", 1, MOST_SIGNALS);
    int listed =
        hasParts ? (int) at.whole("parts", record.group(2), 1, Integer.MAX_VALUE) : signals;
    if (lines.size() - 1 < listed) {
      throw at.fault(
          hasParts ? "parts" : "number of signals",
          listed + " lines after this one",
          Integer.toString(lines.size() - 1));
    }
    Matcher rate = RATE.matcher(field.length > 2 ? field[2] : "");
    LocalDateTime start = field.length > 5 ? WfdbFields.start(field[4], field[5]) : null;
    List<WfdbSignalLine> found = new ArrayList<>();
    List<PartLine> parts = new ArrayList<>();
    for (int i = 1; i <= listed; i++) {
      if (hasParts) {
        parts.add(part(places.get(i), lines.get(i)));
      } else {
        found.add(WfdbSignalLine.parse(places.get(i), lines.get(i), record.group(1), i));
      }
    }
    return new WfdbHeader(
        file,
        record.group(1),
        rate.matches() ? at.rate("sampling rate", rate.group(1)) : null,
        field.length > 3 ? at.whole("number of samples", field[3], 0, MOST_FRAMES) : 0,
        start,
        start == null && field.length > 5,
        isTextValid,
        found,
        parts);
  }

  private static PartLine part(WfdbFields at, String line) throws RecordingFormatException {
    String[] field = line.split("[ \\t]+", 3);
    if (field.length < 2) {
      throw at.fault("part", "the name of a part and its length", line);
    }
    return new PartLine(at, field[0], at.whole("length of the part", field[1], 0, MOST_FRAMES));
  }
}
