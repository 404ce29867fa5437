package org.lonefibre.formats.wfdb;

import java.math.BigDecimal;
import java.math.BigInteger;
import java.math.RoundingMode;
import java.time.DateTimeException;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.LocalTime;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import org.lonefibre.signal.recording.RecordingFormatException;
import org.lonefibre.signal.recording.TimeBase;

/** Reads the fields of one line of a header. */
final class WfdbFields {

  private static final Pattern NUMBER = Pattern.compile("[-+]?\\d{1,18}");
  private static final Pattern DECIMAL =
      Pattern.compile("[-+]?(\\d{1,30}(\\.\\d{0,30})?|\\.\\d{1,30})([eE][-+]?\\d{1,3})?");
  private static final Pattern TIME = Pattern.compile("(\\d{1,2}):(\\d{1,2}):(\\d{1,2}(\\.\\d*)?)");
  private static final Pattern DAY = Pattern.compile("(\\d{1,2})/(\\d{1,2})/(\\d{4})");
  private static final BigDecimal LEAST_RATE_HZ = new BigDecimal("1e-6");
  private static final BigDecimal MOST_RATE_HZ = new BigDecimal("1e9");

  final String file;
  final int line;

  /**
   * @param line number of the line, from 1
   */
  WfdbFields(String file, int line) {
    this.file = file;
    this.line = line;
  }

  String place(String field) {
    return "line " + line + ", " + field;
  }

  RecordingFormatException fault(String field, String expected, String found) {
    return new RecordingFormatException(
        file,
        place(field),
        expected,
        found.isEmpty() ? "nothing" : "\"" + found + "\"",
        "mend the header, or export the recording as EDF+");
  }

  long whole(String field, String text, long least, long most) throws RecordingFormatException {
    if (NUMBER.matcher(text).matches()) {
      long value = Long.parseLong(text);
      if (value >= least && value <= most) {
        return value;
      }
    }
    throw fault(field, "a whole number from " + least + " to " + most, text);
  }

  double decimal(String field, String text) throws RecordingFormatException {
    if (!DECIMAL.matcher(text).matches() || !Double.isFinite(Double.parseDouble(text))) {
      throw fault(field, "a number", text);
    }
    return Double.parseDouble(text);
  }

  /** The exact rate of a number as printed. */
  TimeBase rate(String field, String text) throws RecordingFormatException {
    BigDecimal printed = DECIMAL.matcher(text).matches() ? new BigDecimal(text) : BigDecimal.ZERO;
    if (printed.compareTo(LEAST_RATE_HZ) < 0 || printed.compareTo(MOST_RATE_HZ) > 0) {
      throw fault(field, "a sampling rate from 0.000001 to 1e9 Hz", text);
    }
    BigDecimal exact = printed.stripTrailingZeros();
    if (exact.scale() > 9) {
      exact = exact.setScale(9, RoundingMode.HALF_EVEN).stripTrailingZeros();
    }
    BigInteger seconds = BigInteger.TEN.pow(Math.max(0, exact.scale()));
    return new TimeBase(
        exact.multiply(new BigDecimal(seconds)).longValueExact(), seconds.longValueExact());
  }

  /** A start as written; null if it is not a valid time and date. */
  static @Nullable LocalDateTime start(String time, String day) {
    Matcher hours = TIME.matcher(time);
    Matcher days = DAY.matcher(day);
    if (!hours.matches() || !days.matches()) {
      return null;
    }
    try {
      BigDecimal seconds = new BigDecimal(hours.group(3));
      int whole = seconds.intValue();
      int nanos = seconds.subtract(BigDecimal.valueOf(whole)).movePointRight(9).intValue();
      return LocalDateTime.of(
          LocalDate.of(
              Integer.parseInt(days.group(3)),
              Integer.parseInt(days.group(2)),
              Integer.parseInt(days.group(1))),
          LocalTime.of(
              Integer.parseInt(hours.group(1)), Integer.parseInt(hours.group(2)), whole, nanos));
    } catch (DateTimeException e) {
      return null;
    }
  }
}
