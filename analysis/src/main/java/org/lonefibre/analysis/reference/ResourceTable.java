package org.lonefibre.analysis.reference;

import de.siegmar.fastcsv.reader.CommentStrategy;
import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.NamedCsvRecord;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Optional;

/** Tables carried with the program. */
final class ResourceTable {

  private ResourceTable() {}

  static List<NamedCsvRecord> rows(String name) {
    try (InputStream in = ResourceTable.class.getResourceAsStream(name)) {
      if (in == null) {
        throw new IllegalStateException("missing table " + name);
      }
      try (InputStreamReader text = new InputStreamReader(in, StandardCharsets.UTF_8);
          CsvReader<NamedCsvRecord> rows =
              CsvReader.builder().commentStrategy(CommentStrategy.SKIP).ofNamedCsvRecord(text)) {
        return rows.stream().toList();
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** A cell that may be blank. */
  static Optional<String> findCell(NamedCsvRecord row, String column) {
    return Optional.of(row.getField(column)).filter(text -> !text.isBlank());
  }
}
