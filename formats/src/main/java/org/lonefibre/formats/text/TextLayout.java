package org.lonefibre.formats.text;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/** How a text is laid out: delimiter, decimal mark, header, and what its columns are. */
final class TextLayout {

  private static final String[] DELIMITERS = {"\t", ";", ",", " "};

  final String delimiter;
  final boolean decimalComma;

  /** Labels of the header; null if there is none. */
  final @Nullable List<String> header;

  final int columns;

  private TextLayout(
      String delimiter, boolean decimalComma, @Nullable List<String> header, int columns) {
    this.delimiter = delimiter;
    this.decimalComma = decimalComma;
    this.header = header;
    this.columns = columns;
  }

  /** The layout of the first lines (comments and empty lines left out); null if it is none. */
  static @Nullable TextLayout detect(List<String> lines) {
    for (String delimiter : DELIMITERS) {
      for (boolean comma : new boolean[] {false, true}) {
        if (comma && delimiter.equals(",")) {
          continue;
        }
        TextLayout layout = tryOne(lines, delimiter, comma);
        if (layout != null) {
          return layout;
        }
      }
    }
    return null;
  }

  private static @Nullable TextLayout tryOne(
      List<String> lines, String delimiter, boolean decimalComma) {
    if (lines.isEmpty()) {
      return null;
    }
    boolean hasHeader = !isNumeric(split(lines.get(0), delimiter), decimalComma);
    int firstData = hasHeader ? 1 : 0;
    if (lines.size() <= firstData) {
      return null;
    }
    List<String> first = split(lines.get(firstData), delimiter);
    if (!isNumeric(first, decimalComma)) {
      return null;
    }
    boolean single = first.size() == 1;
    boolean delimited = lines.get(firstData).contains(delimiter.equals(" ") ? " " : delimiter);
    if (single && (delimited || !delimiter.equals(" "))) {
      return null;
    }
    if (delimiter.equals(" ") && lines.get(firstData).contains("\t")) {
      return null;
    }
    List<String> header = hasHeader ? split(lines.get(0), delimiter) : null;
    if (header != null && header.size() != first.size()) {
      return null;
    }
    return new TextLayout(delimiter, decimalComma, header, first.size());
  }

  private static boolean isNumeric(List<String> tokens, boolean decimalComma) {
    for (String token : tokens) {
      if (number(token, decimalComma) == null) {
        return false;
      }
    }
    return !tokens.isEmpty();
  }

  static List<String> split(String line, String delimiter) {
    List<String> tokens = new ArrayList<>();
    if (delimiter.equals(" ")) {
      for (String token : line.strip().split("\\s+")) {
        tokens.add(token);
      }
      return tokens;
    }
    int from = 0;
    while (true) {
      int to = line.indexOf(delimiter, from);
      if (to < 0) {
        tokens.add(unquoted(line.substring(from)));
        return tokens;
      }
      tokens.add(unquoted(line.substring(from, to)));
      from = to + delimiter.length();
    }
  }

  private static String unquoted(String token) {
    String text = token.strip();
    return text.length() > 1 && text.startsWith("\"") && text.endsWith("\"")
        ? text.substring(1, text.length() - 1)
        : text;
  }

  /** The number a token says; null if it is none. */
  static @Nullable Double number(String token, boolean decimalComma) {
    String text = token.strip();
    if (text.isEmpty() || text.length() > 40) {
      return null;
    }
    if (decimalComma) {
      if (text.indexOf('.') >= 0) {
        return null;
      }
      text = text.replace(',', '.');
    }
    for (int k = 0; k < text.length(); k++) {
      char c = text.charAt(k);
      if ((c < '0' || c > '9') && "+-.eE".indexOf(c) < 0) {
        return null;
      }
    }
    try {
      double value = Double.parseDouble(text);
      return Double.isFinite(value) ? value : null;
    } catch (NumberFormatException e) {
      return null;
    }
  }

  /** Label of a column without its unit. */
  String label(int column) {
    if (header == null) {
      return "column " + (column + 1);
    }
    return header.get(column);
  }

  /** Unit of a column: in brackets or parentheses, or after the last underscore; empty if none. */
  String unit(int column) {
    if (header == null) {
      return "";
    }
    String label = header.get(column).strip();
    for (String pair : new String[] {"()", "[]"}) {
      int from = label.lastIndexOf(pair.charAt(0));
      if (from >= 0 && label.endsWith(pair.substring(1))) {
        return label.substring(from + 1, label.length() - 1).strip();
      }
    }
    int under = label.lastIndexOf('_');
    String tail = under < 0 ? "" : label.substring(under + 1);
    return tail.length() <= 3 && tail.matches("[numk]?V|\u00b5V|\u03bcV|s|ms|us") ? tail : "";
  }

  /** Whether the header calls a column a time. */
  boolean isNamedTime(int column) {
    if (header == null) {
      return false;
    }
    String name = header.get(column).strip().toLowerCase(Locale.ROOT);
    return name.matches("(time|t|zeit|seconds|sec)([\\s_(\\[].*)?");
  }

  /** Whether the header calls a column a running number. */
  boolean isNamedIndex(int column) {
    if (header == null) {
      return false;
    }
    String name = header.get(column).strip().toLowerCase(Locale.ROOT);
    return name.matches("sample|samples|index|n|nr|no|row");
  }
}
