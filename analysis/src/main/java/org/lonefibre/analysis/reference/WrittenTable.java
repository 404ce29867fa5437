package org.lonefibre.analysis.reference;

import de.siegmar.fastcsv.reader.CommentStrategy;
import de.siegmar.fastcsv.reader.CsvParseException;
import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.NamedCsvRecord;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * A comma-separated table a person wrote, its header and cells checked. Lines that begin with
 * {@code #} are comments.
 *
 * <p>Thread rule: immutable, safe to share.
 */
public final class WrittenTable {

  private final String file;
  private final List<NamedCsvRecord> rows;
  private final Set<String> columns;

  private WrittenTable(String file, List<NamedCsvRecord> rows, Set<String> columns) {
    this.file = file;
    this.rows = rows;
    this.columns = columns;
  }

  /**
   * Reads a table.
   *
   * @param file name of the file, for faults
   * @param required columns it must have
   * @param allowed columns it may have besides
   * @throws TableFault if it is not such a table, or has no row
   */
  public static WrittenTable of(
      String file, String text, List<String> required, List<String> allowed) throws TableFault {
    List<NamedCsvRecord> rows = new ArrayList<>();
    try (CsvReader<NamedCsvRecord> reader =
        CsvReader.builder()
            .commentStrategy(CommentStrategy.SKIP)
            .ofNamedCsvRecord(text.startsWith("\uFEFF") ? text.substring(1) : text)) {
      reader.forEach(rows::add);
    } catch (CsvParseException | java.io.IOException e) {
      throw new TableFault(
          file, 0, "", "a comma-separated table", String.valueOf(e.getMessage()), "correct it");
    }
    if (rows.isEmpty()) {
      throw new TableFault(
          file, 0, "", "a header and a line at least", "none", "write a line a row");
    }
    Set<String> columns = new LinkedHashSet<>(rows.get(0).getHeader());
    for (String column : columns) {
      if (!required.contains(column) && !allowed.contains(column)) {
        throw new TableFault(
            file,
            1,
            "",
            "columns " + String.join(", ", required) + ", and if need be " + join(allowed),
            column,
            "rename or remove that column");
      }
    }
    for (String column : required) {
      if (!columns.contains(column)) {
        throw new TableFault(
            file, 1, "", "a column " + column, String.join(", ", columns), "add it");
      }
    }
    return new WrittenTable(file, rows, columns);
  }

  private static String join(List<String> columns) {
    return String.join(", ", columns);
  }

  /** Number of rows. */
  public int size() {
    return rows.size();
  }

  /** Line of a row, from 1. */
  public long line(int row) {
    return rows.get(row).getStartingLineNumber();
  }

  /** A cell; empty if it is blank or its column missing. */
  public String text(int row, String column) {
    if (!columns.contains(column)) {
      return "";
    }
    return rows.get(row).findField(column).map(String::strip).orElse("");
  }

  /**
   * A cell that must not be blank.
   *
   * @throws TableFault if it is
   */
  public String required(int row, String column) throws TableFault {
    String text = text(row, column);
    if (text.isEmpty()) {
      throw fault(row, column, "a value", "nothing", "fill it in");
    }
    return text;
  }

  /**
   * A number within a range; null if the cell is blank.
   *
   * @throws TableFault if it is another thing
   */
  public @Nullable Double number(int row, String column, double low, double high, String unit)
      throws TableFault {
    String text = text(row, column);
    if (text.isEmpty()) {
      return null;
    }
    String range =
        LimitFindings.text("a number of %s to %s %s", plain(low), plain(high), unit).strip();
    try {
      double value = Double.parseDouble(text);
      if (value >= low && value <= high) {
        return value;
      }
    } catch (NumberFormatException e) {
      // Said below, as for a number out of range.
    }
    throw fault(row, column, range, text, "check the value and its unit");
  }

  /** A fault at a cell. */
  public TableFault fault(int row, String column, String expected, String found, String remedy) {
    return new TableFault(file, line(row), column, expected, found, remedy);
  }

  private static String plain(double value) {
    return value == Math.rint(value) ? Long.toString((long) value) : Double.toString(value);
  }
}
