package org.lonefibre.formats.writer;

import java.math.BigDecimal;
import java.time.LocalDateTime;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * Who was recorded, when and how, as the header says it (Kemp and Olivan 2003). Thread rule:
 * immutable.
 *
 * @param patient the field of the patient: code, sex, date of birth, name; {@code X} stands for
 *     unknown
 * @param recording the field of the recording, which begins with {@code Startdate}
 * @param start local start with its fraction of a second; null if unknown
 * @param transducers by number of the channel; what is absent is empty
 */
public record EdfIdentity(
    String patient,
    String recording,
    @Nullable LocalDateTime start,
    Map<Integer, String> transducers) {

  private static final String[] MONTHS = {
    "JAN", "FEB", "MAR", "APR", "MAY", "JUN", "JUL", "AUG", "SEP", "OCT", "NOV", "DEC"
  };

  /** Copies the map; refuses years that two digits cannot tell. */
  public EdfIdentity {
    transducers = Map.copyOf(transducers);
    if (start != null && (start.getYear() < 1985 || start.getYear() > 2084)) {
      throw new IllegalArgumentException(
          "the start of a recording must lie in 1985 to 2084, found " + start.getYear());
    }
  }

  /** A code and a start, everything else unknown. */
  public static EdfIdentity of(String subject, @Nullable LocalDateTime start) {
    String code = subject.isBlank() ? "X" : subject.strip().replace(' ', '_');
    return new EdfIdentity(code + " X X X", startdate(start) + " X X X", start, Map.of());
  }

  /** How a field of the recording begins. */
  public static String startdate(@Nullable LocalDateTime start) {
    return start == null
        ? "Startdate X"
        : String.format(
            Locale.ROOT,
            "Startdate %02d-%s-%04d",
            start.getDayOfMonth(),
            MONTHS[start.getMonthValue() - 1],
            start.getYear());
  }

  String startDate() {
    return start == null
        ? "01.01.85"
        : String.format(
            Locale.ROOT,
            "%02d.%02d.%02d",
            start.getDayOfMonth(),
            start.getMonthValue(),
            start.getYear() % 100);
  }

  String startTime() {
    return start == null
        ? "00.00.00"
        : String.format(
            Locale.ROOT, "%02d.%02d.%02d", start.getHour(), start.getMinute(), start.getSecond());
  }

  /** Fraction of a second at which the recording starts. */
  BigDecimal startFraction() {
    return start == null ? BigDecimal.ZERO : BigDecimal.valueOf(start.getNano(), 9);
  }
}
