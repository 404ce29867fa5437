package org.lonefibre.formats.text;

import de.siegmar.fastcsv.reader.CommentStrategy;
import de.siegmar.fastcsv.reader.CsvParseException;
import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.CsvRecord;
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
    private final Reader reader;
    private final char[] buffer = new char[1 << 16];
    private int at;
    private int filled;
    private long line;

    Spaced(String file, Reader reader) {
      this.file = file;
      this.reader = reader;
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

    /** A line, but never more than a row can hold. A buffer of its own is read twice as fast. */
    private @Nullable String line() throws IOException {
      StringBuilder begun = new StringBuilder(0);
      while (true) {
        int end = at;
        while (end < filled && buffer[end] != '\n' && buffer[end] != '\r') {
          end++;
        }
        if (begun.length() + (end - at) > MOST_CHARACTERS) {
          throw fault(file, line + 1, "a line of more than " + MOST_CHARACTERS + " characters");
        }
        if (end < filled) {
          String rest = new String(buffer, at, end - at);
          at = end + 1;
          if (buffer[end] == '\r' && (at < filled || fill()) && buffer[at] == '\n') {
            at++;
          }
          return begun.isEmpty() ? rest : begun.append(rest).toString();
        }
        begun.append(buffer, at, end - at);
        if (!fill()) {
          return begun.isEmpty() ? null : begun.toString();
        }
      }
    }

    private boolean fill() throws IOException {
      at = 0;
      filled = Math.max(0, reader.read(buffer, 0, buffer.length));
      return filled > 0;
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
