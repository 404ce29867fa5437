package org.lonefibre.formats.text;

import java.util.Locale;
import java.util.regex.Pattern;
import org.lonefibre.formats.reader.AmplitudeUnit;

/**
 * What the header says of one column: its label and the unit within it, as in {@code EMG (mV)},
 * {@code EMG [uV]}, {@code sweep0_mV}, {@code EMG mV}.
 */
record ColumnName(String label, String unit) {

  private static final Pattern TIME =
      Pattern.compile("(time|times|timestamp|timestamps|t|zeit|second|seconds|sec)([\\s_(\\[].*)?");
  private static final Pattern INDEX =
      Pattern.compile("#|(sample|samples|index|idx|n|nr|no|row)([\\s_.(\\[].*)?");

  /** A column without a name. */
  static ColumnName unnamed(int column) {
    return new ColumnName("column " + (column + 1), "");
  }

  static ColumnName of(String written) {
    String label = written.strip();
    for (String pair : new String[] {"()", "[]"}) {
      int from = label.lastIndexOf(pair.charAt(0));
      if (from >= 0 && label.endsWith(pair.substring(1))) {
        return new ColumnName(label, label.substring(from + 1, label.length() - 1).strip());
      }
    }
    String tail = label.substring(Math.max(label.lastIndexOf('_'), label.lastIndexOf(' ')) + 1);
    return new ColumnName(label, isUnit(tail) ? tail : "");
  }

  /** Whether a text is a unit and nothing else. */
  static boolean isUnit(String text) {
    return isTimeUnit(text) || AmplitudeUnit.microvolts(text).isPresent();
  }

  private static boolean isTimeUnit(String text) {
    return switch (text) {
      case "s", "sec", "ms", "us", "\u00b5s", "\u03bcs" -> true;
      default -> false;
    };
  }

  /** Whether it is a column of times. */
  boolean isTime() {
    return !isVoltage() && isTimeLabel();
  }

  /** Whether it says in what its times are. */
  boolean isTimeUnitKnown() {
    return isTimeUnit(unit);
  }

  private boolean isVoltage() {
    return AmplitudeUnit.microvolts(unit).isPresent();
  }

  private boolean isTimeLabel() {
    return TIME.matcher(label.toLowerCase(Locale.ROOT)).matches() || isTimeUnit(unit);
  }

  /** Whether it is a column of running numbers. */
  boolean isIndex() {
    return !isVoltage() && INDEX.matcher(label.toLowerCase(Locale.ROOT)).matches();
  }

  /** Decimal places by which a number in this column is moved to become seconds. */
  int timeExponent() {
    return switch (unit) {
      case "ms" -> 3;
      case "us", "\u00b5s", "\u03bcs" -> 6;
      default -> 0;
    };
  }
}
