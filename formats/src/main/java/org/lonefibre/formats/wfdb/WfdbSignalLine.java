package org.lonefibre.formats.wfdb;

import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import org.lonefibre.signal.recording.RecordingFormatException;

/**
 * One signal of a header.
 *
 * @param fields the line it stands in
 * @param file name of the file of its samples; {@code ~} in a layout without samples
 * @param format null for a layout without samples
 * @param samplesPerFrame at least 1
 * @param skewFrames frames by which its samples stand late in the file
 * @param byteOffset bytes before the first sample
 * @param gain converter steps in one unit; 0 if the header gives none
 * @param baseline converter number of 0 units
 * @param unit as written, empty if none
 * @param resolutionBits bits of the converter; 0 if the header does not tell
 * @param zero converter number in the middle of its range
 * @param initial value before the first difference
 * @param checksum sum of all samples in 16 bits; null if the header gives none
 * @param label description as written
 */
record WfdbSignalLine(
    WfdbFields fields,
    String file,
    @Nullable WfdbFormat format,
    int samplesPerFrame,
    long skewFrames,
    long byteOffset,
    double gain,
    double baseline,
    String unit,
    int resolutionBits,
    int zero,
    int initial,
    @Nullable Integer checksum,
    String label) {

  /** Stands for a file where there is none. */
  static final String NO_FILE = "~";

  private static final Pattern FORMAT =
      Pattern.compile("(\\d{1,9})(?:x(\\d{1,18}))?(?::(\\d{1,18}))?(?:\\+(\\d{1,18}))?");
  private static final Pattern GAIN = Pattern.compile("([^(/]*)(?:\\(([^)]*)\\))?(?:/(.*))?");
  private static final int MOST_PER_FRAME = 1 << 24;

  static WfdbSignalLine parse(WfdbFields at, String line, String record, int number)
      throws RecordingFormatException {
    String[] field = line.strip().split("[ \\t]+", 9);
    if (field.length < 2) {
      throw at.fault("signal", "a file and a format", line);
    }
    Matcher format = FORMAT.matcher(field[1]);
    if (!format.matches()) {
      throw at.fault("format", "a format such as 16 or 212", field[1]);
    }
    int code = Integer.parseInt(format.group(1));
    boolean isEmpty = field[0].equals(NO_FILE);
    WfdbFormat known = WfdbFormat.find(code);
    if (known == null && !isEmpty) {
      throw unreadable(at, code);
    }
    Matcher gain = GAIN.matcher(field.length > 2 ? field[2] : "");
    if (!gain.matches()) {
      throw at.fault("gain", "a gain such as 200(0)/mV", field[2]);
    }
    String steps = gain.group(1);
    int zero = field.length > 4 ? integer(at, "converter zero", field[4]) : 0;
    String offset = gain.group(2);
    return new WfdbSignalLine(
        at,
        field[0],
        isEmpty ? null : known,
        format.group(2) == null
            ? 1
            : (int) at.whole("samples per frame", format.group(2), 1, MOST_PER_FRAME),
        format.group(3) == null ? 0 : Long.parseLong(format.group(3)),
        format.group(4) == null ? 0 : Long.parseLong(format.group(4)),
        steps.isEmpty() ? 0 : at.decimal("gain", steps),
        offset == null ? zero : at.decimal("baseline", offset),
        gain.group(3) == null ? "" : gain.group(3).strip(),
        field.length > 3 ? (int) at.whole("converter resolution", field[3], 0, 64) : 0,
        zero,
        field.length > 5 ? integer(at, "initial value", field[5]) : zero,
        field.length > 6 ? (Integer) (int) (short) integer(at, "checksum", field[6]) : null,
        field.length > 8 ? field[8].strip() : "record " + record + ", signal " + (number - 1));
  }

  private static int integer(WfdbFields at, String name, String text)
      throws RecordingFormatException {
    return (int) at.whole(name, text, Integer.MIN_VALUE, Integer.MAX_VALUE);
  }

  private static RecordingFormatException unreadable(WfdbFields at, int code) {
    boolean isFlac = code == 508 || code == 516 || code == 524;
    return new RecordingFormatException(
        at.file,
        at.place("format"),
        "one of 8, 16, 24, 32, 61, 80, 160, 212, 310, 311",
        code + (isFlac ? ", samples compressed with FLAC" : ""),
        isFlac
            ? "convert the record to format 16 or 24; nothing is lost by that"
            : "convert the record to format 16");
  }
}
