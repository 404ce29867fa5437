package org.lonefibre.formats.text;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import org.lonefibre.signal.recording.RecordingFormatException;

/** The numbers of a text, parsed once, a column each; rows of another width are refused. */
final class TextTable {

  /** Rows of which only the finest number of decimals is remembered. */
  static final int DECIMALS_ROWS = 16;

  final List<NumberColumn> columns = new ArrayList<>();

  /** Most decimals of each block of rows in the column of times. */
  final NumberColumn timeDecimals = new NumberColumn();

  private final String file;
  private final TextLayout layout;
  private final int timeColumn;
  private final DecimalText number;

  /** Rows where the count of lines goes on by more than one: row and its line. */
  private final List<long[]> lines = new ArrayList<>();

  private int rows;
  private int mostDecimals = Integer.MIN_VALUE;

  TextTable(String file, TextLayout layout) {
    this.file = file;
    this.layout = layout;
    this.timeColumn = layout.roles.indexOf(TextLayout.Role.TIME);
    this.number = new DecimalText(layout.decimalMark);
    for (int c = 0; c < layout.names.size(); c++) {
      columns.add(new NumberColumn());
    }
  }

  int rows() {
    return rows;
  }

  /** Number of the line of a row, from 1. */
  int lineOfRow(int row) {
    int low = 0;
    int high = lines.size() - 1;
    while (low < high) {
      int middle = (low + high + 1) / 2;
      if (lines.get(middle)[0] <= row) {
        low = middle;
      } else {
        high = middle - 1;
      }
    }
    long[] known = lines.get(low);
    return (int) (known[1] + row - known[0]);
  }

  void parse(TextRows text) throws IOException {
    long expected = -1;
    int header = layout.headerRows;
    TextRows.Row row;
    while ((row = text.next()) != null) {
      if (header > 0) {
        header--;
        continue;
      }
      if (row.line() != expected) {
        lines.add(new long[] {rows, row.line()});
      }
      expected = row.line() + 1;
      add(row);
    }
    if (rows % DECIMALS_ROWS != 0 && timeColumn >= 0) {
      timeDecimals.add(mostDecimals);
    }
  }

  private void add(TextRows.Row row) throws RecordingFormatException {
    List<String> fields = row.fields();
    int count = columns.size();
    boolean trailing = fields.size() == count + 1 && fields.get(count).isBlank();
    if (fields.size() != count && !trailing) {
      throw new RecordingFormatException(
          file,
          "line " + row.line(),
          count + (count == 1 ? " number" : " numbers"),
          fields.size() + " (" + String.join(" ", fields) + ")",
          "mend or remove that line");
    }
    for (int c = 0; c < count; c++) {
      String field = fields.get(c);
      if (!number.readSample(field)) {
        throw new RecordingFormatException(
            file,
            "line " + row.line() + ", column " + (c + 1),
            "a number",
            field.isBlank() ? "nothing" : field,
            IntervalList.isBlock(field)
                ? "a list of intervals is read by the command intervals"
                : "mend or remove that line");
      }
      columns.get(c).add(number.value());
      if (c == timeColumn) {
        mostDecimals = Math.max(mostDecimals, number.decimals());
      }
    }
    rows++;
    if (rows % DECIMALS_ROWS == 0 && timeColumn >= 0) {
      timeDecimals.add(mostDecimals);
      mostDecimals = Integer.MIN_VALUE;
    }
  }
}
