package org.lonefibre.formats.text;

import java.io.IOException;
import java.io.StringReader;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
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

  /** How many of the rows looked at can be read so. */
  private final int fittingRows;

  private TextLayout(
      char delimiter,
      char decimalMark,
      int headerRows,
      List<ColumnName> names,
      List<Role> roles,
      boolean isAmbiguous,
      int fittingRows) {
    this.delimiter = delimiter;
    this.decimalMark = decimalMark;
    this.headerRows = headerRows;
    this.names = List.copyOf(names);
    this.roles = List.copyOf(roles);
    this.isAmbiguous = isAmbiguous;
    this.fittingRows = fittingRows;
  }

  /**
   * The layout of the beginning of a text; null if it has none. Of several that are possible the
   * one that reads most rows: the first row alone may be zeros, which look the same in all.
   *
   * @param head whole lines from the beginning of the text
   */
  static @Nullable TextLayout detect(String head) {
    TextLayout best = null;
    for (char delimiter : DELIMITERS) {
      List<List<String>> rows = rows(head, delimiter);
      for (char mark : new char[] {'.', ','}) {
        TextLayout layout = mark == delimiter ? null : of(rows, delimiter, mark);
        if (layout != null && (best == null || layout.fittingRows > best.fittingRows)) {
          best = layout;
        }
      }
    }
    return best;
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
    int numeric = 0;
    while (numeric < rows.size() && !isNumeric(rows.get(numeric), mark)) {
      numeric++;
    }
    if (numeric >= rows.size()) {
      return null;
    }
    int first = 0;
    while (first < numeric && !beginsWithNumber(rows.get(first), mark)) {
      first++;
    }
    // A row that begins with a number is no header: if it is broken, it shall be named.
    int columns = usualColumns(rows.subList(numeric, rows.size()), mark);
    boolean single = columns == 1;
    if (single && delimiter != ' ') {
      return null;
    }
    List<ColumnName> names = names(rows, delimiter, first, columns);
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
    return new TextLayout(delimiter, mark, first, names, roles, ambiguous, numbers.size());
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

  /** The width that most rows of numbers have; the first such if several are as common. */
  private static int usualColumns(List<List<String>> rows, char mark) {
    Map<Integer, Integer> counts = new LinkedHashMap<>();
    for (List<String> row : rows) {
      if (isNumeric(row, mark)) {
        counts.merge(columns(row), 1, Integer::sum);
      }
    }
    int usual = 0;
    int most = 0;
    for (Map.Entry<Integer, Integer> width : counts.entrySet()) {
      if (width.getValue() > most) {
        usual = width.getKey();
        most = width.getValue();
      }
    }
    return usual;
  }

  private static boolean beginsWithNumber(List<String> row, char mark) {
    return new DecimalText(mark).read(row.get(0));
  }

  private static boolean isWholePair(List<String> row) {
    return row.get(0).strip().matches("[+-]?\\d+") && row.get(1).matches("\\d+");
  }

  /** White space within a label: before a bracket, or anywhere if there is one column only. */
  private static List<String> joined(List<String> row, int columns) {
    List<String> labels = new ArrayList<>();
    for (String token : row) {
      boolean bracket = token.startsWith("(") || token.startsWith("[");
      if (!labels.isEmpty() && (columns == 1 || bracket)) {
        labels.add(labels.remove(labels.size() - 1) + " " + token);
      } else {
        labels.add(token);
      }
    }
    return labels;
  }

  /**
   * Names of the columns from the row before the first numbers, or from the one before that if it
   * holds nothing but units; what stands above is about the recording and is passed over. Null if
   * that row has not a name for each column: its units would be lost.
   */
  private static @Nullable List<ColumnName> names(
      List<List<String>> rows, char delimiter, int first, int columns) {
    List<ColumnName> names = new ArrayList<>();
    for (int c = 0; c < columns; c++) {
      names.add(ColumnName.unnamed(c));
    }
    if (first == 0) {
      return names;
    }
    List<String> units = first > 1 ? units(rows.get(first - 1)) : List.of();
    List<String> labels = rows.get(units.isEmpty() ? first - 1 : first - 2);
    labels = delimiter == ' ' ? joined(labels, columns) : labels;
    if (labels.size() != columns && columns(labels) != columns) {
      return null;
    }
    for (int c = 0; c < columns; c++) {
      ColumnName name = ColumnName.of(labels.get(c));
      String unit = c < units.size() ? units.get(c) : "";
      names.set(c, unit.isEmpty() ? name : new ColumnName(name.label(), unit));
    }
    return names;
  }

  /** The units of a row that holds nothing else; empty if it does. */
  private static List<String> units(List<String> row) {
    List<String> units =
        row.stream().map(field -> field.strip().replaceAll("[\\[\\]()]", "")).toList();
    boolean only = units.stream().allMatch(unit -> unit.isEmpty() || ColumnName.isUnit(unit));
    return only ? units : List.of();
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
