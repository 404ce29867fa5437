package org.lonefibre.formats.text;

import java.io.IOException;
import java.io.StringReader;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** How a text is laid out: delimiter, decimal mark, header, and what its columns are. */
final class TextLayout {

  private static final char[] DELIMITERS = {'\t', ';', ',', ' '};

  /** Rows looked at; engineering choice. */
  private static final int LOOK_ROWS = 64;

  /** What a column holds. */
  enum Role {
    TIME,
    INDEX,
    SAMPLES
  }

  final char delimiter;
  final char decimalMark;
  final int headerRows;
  final List<ColumnName> names;
  final List<Role> roles;

  /** Whether one number with a decimal comma looks the same as two whole numbers. */
  final boolean isAmbiguous;

  private TextLayout(
      char delimiter,
      char decimalMark,
      int headerRows,
      List<ColumnName> names,
      List<Role> roles,
      boolean isAmbiguous) {
    this.delimiter = delimiter;
    this.decimalMark = decimalMark;
    this.headerRows = headerRows;
    this.names = List.copyOf(names);
    this.roles = List.copyOf(roles);
    this.isAmbiguous = isAmbiguous;
  }

  /**
   * The layout of the beginning of a text; null if it has none.
   *
   * @param head whole lines from the beginning of the text
   */
  static @Nullable TextLayout detect(String head) {
    for (char delimiter : DELIMITERS) {
      List<List<String>> rows = rows(head, delimiter);
      for (char mark : new char[] {'.', ','}) {
        TextLayout layout = mark == delimiter ? null : of(rows, delimiter, mark);
        if (layout != null) {
          return layout;
        }
      }
    }
    return null;
  }

  private static List<List<String>> rows(String head, char delimiter) {
    List<List<String>> rows = new ArrayList<>();
    try {
      TextRows text = TextRows.of("", new StringReader(head), delimiter);
      TextRows.Row row;
      while (rows.size() < LOOK_ROWS && (row = text.next()) != null) {
        rows.add(row.fields());
      }
    } catch (IOException e) {
      // A row that cannot be read ends the look; opening the file names its line.
      return rows;
    }
    return rows;
  }

  private static @Nullable TextLayout of(List<List<String>> rows, char delimiter, char mark) {
    int first = 0;
    while (first < rows.size() && first < 2 && !isNumeric(rows.get(first), mark)) {
      first++;
    }
    if (first >= rows.size() || !isNumeric(rows.get(first), mark)) {
      return null;
    }
    int columns = columns(rows.get(first));
    boolean single = columns == 1;
    if (single && delimiter != ' ' || rows.get(first).size() != columns && columns < 2) {
      return null;
    }
    List<ColumnName> names =
        names(delimiter == ' ' ? joined(rows, first, columns) : rows, first, columns);
    if (names == null) {
      return null;
    }
    List<List<String>> numbers = new ArrayList<>();
    for (List<String> row : rows.subList(first, rows.size())) {
      if (columns(row) == columns && isNumeric(row, mark)) {
        numbers.add(row);
      }
    }
    List<Role> roles = roles(names, first > 0, numbers, mark);
    boolean ambiguous =
        delimiter == ','
            && first == 0
            && columns == 2
            && roles.get(0) == Role.SAMPLES
            && numbers.stream().allMatch(row -> isWholePair(row));
    return new TextLayout(delimiter, mark, first, names, roles, ambiguous);
  }

  /** Columns of a row; a delimiter at the end of the line begins no column. */
  static int columns(List<String> row) {
    int size = row.size();
    return size > 1 && row.get(size - 1).isBlank() ? size - 1 : size;
  }

  private static boolean isNumeric(List<String> row, char mark) {
    DecimalText number = new DecimalText(mark);
    int columns = columns(row);
    for (int c = 0; c < columns; c++) {
      if (!number.read(row.get(c))) {
        return false;
      }
    }
    return columns > 0;
  }

  private static boolean isWholePair(List<String> row) {
    return row.get(0).strip().matches("[+-]?\\d+") && row.get(1).matches("\\d+");
  }

  /** White space within a label: before a bracket, or anywhere if there is one column only. */
  private static List<List<String>> joined(List<List<String>> rows, int first, int columns) {
    if (first == 0) {
      return rows;
    }
    List<String> labels = new ArrayList<>();
    for (String token : rows.get(0)) {
      boolean bracket = token.startsWith("(") || token.startsWith("[");
      if (!labels.isEmpty() && (columns == 1 || bracket)) {
        labels.add(labels.remove(labels.size() - 1) + " " + token);
      } else {
        labels.add(token);
      }
    }
    List<List<String>> joined = new ArrayList<>(rows);
    joined.set(0, labels);
    return joined;
  }

  private static @Nullable List<ColumnName> names(List<List<String>> rows, int first, int columns) {
    List<ColumnName> names = new ArrayList<>();
    for (int c = 0; c < columns; c++) {
      names.add(ColumnName.unnamed(c));
    }
    if (first == 0) {
      return names;
    }
    List<String> labels = rows.get(0);
    if (labels.size() != columns && columns(labels) != columns) {
      return null;
    }
    List<String> units = first == 2 ? rows.get(1) : List.of();
    for (int c = 0; c < columns; c++) {
      ColumnName name = ColumnName.of(labels.get(c));
      if (first == 2) {
        String unit = c < units.size() ? units.get(c).strip().replaceAll("[\\[\\]()]", "") : "";
        if (!unit.isEmpty() && !ColumnName.isUnit(unit)) {
          return null;
        }
        name = unit.isEmpty() ? name : new ColumnName(name.label(), unit);
      }
      names.set(c, name);
    }
    return names;
  }

  private static List<Role> roles(
      List<ColumnName> names, boolean named, List<List<String>> numbers, char mark) {
    List<Role> roles = new ArrayList<>();
    boolean timed = false;
    for (ColumnName name : names) {
      Role role = Role.SAMPLES;
      if (named && name.isTime() && !timed) {
        role = Role.TIME;
        timed = true;
      } else if (named && name.isIndex() && names.size() > 1) {
        role = Role.INDEX;
      }
      roles.add(role);
    }
    boolean open = roles.stream().allMatch(role -> role == Role.SAMPLES) && names.size() > 1;
    if (open && names.get(0).unit().isEmpty()) {
      roles.set(0, rising(numbers, mark));
    }
    return roles;
  }

  /** What a first column without a telling name is: even steps upwards are times or numbers. */
  private static Role rising(List<List<String>> rows, char mark) {
    if (rows.size() < 3) {
      return Role.SAMPLES;
    }
    DecimalText number = new DecimalText(mark);
    double[] values = new double[rows.size()];
    double digit = 0;
    boolean whole = true;
    for (int i = 0; i < values.length; i++) {
      number.read(rows.get(i).get(0));
      values[i] = number.value();
      digit = i == 0 ? digit(number) : Math.min(digit, digit(number));
      whole &= number.isWhole();
    }
    double step = (values[values.length - 1] - values[0]) / (values.length - 1);
    int even = 0;
    for (int i = 1; i < values.length; i++) {
      double own = values[i] - values[i - 1];
      if (!(own > 0)) {
        return Role.SAMPLES;
      }
      even += Math.abs(own - step) <= 1.01 * digit + 0.05 * step ? 1 : 0;
    }
    if (even < 0.8 * (values.length - 1)) {
      return Role.SAMPLES;
    }
    return whole && step == 1 ? Role.INDEX : Role.TIME;
  }

  private static double digit(DecimalText number) {
    return Math.pow(10, -number.decimals());
  }
}
