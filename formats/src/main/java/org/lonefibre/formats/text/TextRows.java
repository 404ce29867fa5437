package org.lonefibre.formats.text;

import de.siegmar.fastcsv.reader.CommentStrategy;
import de.siegmar.fastcsv.reader.CsvParseException;
import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.CsvRecord;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.Reader;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;
import java.util.StringTokenizer;
import org.jspecify.annotations.Nullable;
import org.lonefibre.signal.recording.RecordingFormatException;

/**
 * The rows of a text, empty lines and comments (from {@code #}) left out. A delimiter is read by
 * FastCSV, which knows quotes; white space of any width by the tokens between it.
 */
abstract class TextRows {

  /** A row of this many characters is not a row of numbers; engineering choice. */
  private static final int MOST_CHARACTERS = 1 << 20;

  /**
   * A row.
   *
   * @param line its number in the file, from 1
   */
  record Row(long line, List<String> fields) {}

  /** The next row; null at the end. */
  abstract @Nullable Row next() throws IOException;

  static TextRows of(String file, Reader reader, char delimiter) {
    return delimiter == ' ' ? new Spaced(file, reader) : new Delimited(file, reader, delimiter);
  }

  private static final class Spaced extends TextRows {

    private final String file;
    private final BufferedReader reader;
    private long line;

    Spaced(String file, Reader reader) {
      this.file = file;
      this.reader = new BufferedReader(reader, 1 << 16);
    }

    @Override
    @Nullable Row next() throws IOException {
      String text;
      while ((text = line()) != null) {
        line++;
        if (text.isBlank() || text.startsWith("#")) {
          continue;
        }
        List<String> fields = new ArrayList<>();
        StringTokenizer tokens = new StringTokenizer(text);
        while (tokens.hasMoreTokens()) {
          fields.add(tokens.nextToken());
        }
        return new Row(line, fields);
      }
      return null;
    }

    /** A line, but never more than a row can hold. */
    private @Nullable String line() throws IOException {
      StringBuilder text = new StringBuilder();
      int c;
      while ((c = reader.read()) >= 0 && c != '\n' && c != '\r') {
        if (text.length() >= MOST_CHARACTERS) {
          throw fault(file, line + 1, "a line of more than " + MOST_CHARACTERS + " characters");
        }
        text.append((char) c);
      }
      if (c == '\r') {
        reader.mark(1);
        if (reader.read() != '\n') {
          reader.reset();
        }
      }
      return c < 0 && text.isEmpty() ? null : text.toString();
    }
  }

  private static final class Delimited extends TextRows {

    private final String file;
    private final Iterator<CsvRecord> records;
    private long line;

    Delimited(String file, Reader reader, char delimiter) {
      this.file = file;
      this.records =
          CsvReader.builder()
              .fieldSeparator(delimiter)
              .commentStrategy(CommentStrategy.SKIP)
              .commentCharacter('#')
              .skipEmptyLines(true)
              .allowExtraFields(true)
              .allowMissingFields(true)
              .maxBufferSize(MOST_CHARACTERS)
              .ofCsvRecord(reader)
              .iterator();
    }

    @Override
    @Nullable Row next() throws IOException {
      try {
        while (records.hasNext()) {
          CsvRecord row = records.next();
          line = row.getStartingLineNumber();
          if (row.getFieldCount() > 1 || !row.getField(0).isBlank()) {
            return new Row(line, row.getFields());
          }
        }
        return null;
      } catch (CsvParseException e) {
        throw fault(file, line + 1, "quotes or a length that no row of numbers has");
      } catch (UncheckedIOException e) {
        throw e.getCause();
      }
    }
  }

  static RecordingFormatException fault(String file, long line, String found) {
    return new RecordingFormatException(
        file, "line " + line, "a row of numbers", found, "mend or remove that line");
  }
}
