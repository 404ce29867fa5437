package org.lonefibre.report.csv;

import de.siegmar.fastcsv.writer.CsvWriter;
import de.siegmar.fastcsv.writer.LineDelimiter;
import java.io.IOException;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.util.List;

/** Writes rows under named columns. */
final class Table {

  private Table() {}

  static <R> String of(List<Column<R>> columns, Iterable<R> rows) {
    StringWriter text = new StringWriter();
    try (CsvWriter csv = CsvWriter.builder().lineDelimiter(LineDelimiter.CRLF).build(text)) {
      csv.writeRecord(columns.stream().map(Column::name).toList());
      for (R row : rows) {
        csv.writeRecord(columns.stream().map(column -> column.cell().apply(row)).toList());
      }
    } catch (IOException e) {
      throw new UncheckedIOException("cannot write to memory", e);
    }
    return text.toString();
  }
}
