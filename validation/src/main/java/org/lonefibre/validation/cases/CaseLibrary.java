package org.lonefibre.validation.cases;

import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.NamedCsvRecord;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.lonefibre.signal.recording.FindingCode;

/** The cases of {@code library.csv}: recipe, truth and expected finding, a line each. */
public final class CaseLibrary {

  private static final String FILE = "library.csv";

  private CaseLibrary() {}

  /**
   * All cases, in the order of the file.
   *
   * @throws IllegalStateException if the file is missing or a line cannot be understood
   */
  public static List<LibraryCase> listAll() {
    InputStream stream = CaseLibrary.class.getResourceAsStream(FILE);
    if (stream == null) {
      throw new IllegalStateException(FILE + " is missing beside the classes");
    }
    List<LibraryCase> cases = new ArrayList<>();
    try (CsvReader<NamedCsvRecord> reader =
        CsvReader.builder()
            .ofNamedCsvRecord(new InputStreamReader(stream, StandardCharsets.UTF_8))) {
      for (NamedCsvRecord line : reader) {
        cases.add(read(line));
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return List.copyOf(cases);
  }

  private static LibraryCase read(NamedCsvRecord line) {
    try {
      return new LibraryCase(
          line.getField("case"),
          Pitfall.valueOf(line.getField("pitfall")),
          Long.parseLong(line.getField("number")),
          isFirst(line, "holds", "yes", "no"),
          line.getField("truth"),
          FindingCode.valueOf(line.getField("finding").toUpperCase(Locale.ROOT).replace('-', '_')),
          isFirst(line, "expected", "raised", "absent"));
    } catch (IllegalArgumentException e) {
      throw new IllegalStateException(
          FILE + ", line " + line.getStartingLineNumber() + ": " + e.getMessage(), e);
    }
  }

  private static boolean isFirst(NamedCsvRecord line, String field, String first, String second) {
    String value = line.getField(field);
    if (!value.equals(first) && !value.equals(second)) {
      throw new IllegalArgumentException(
          field + " must be " + first + " or " + second + ", found " + value);
    }
    return value.equals(first);
  }
}
