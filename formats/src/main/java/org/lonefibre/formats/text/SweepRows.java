package org.lonefibre.formats.text;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import org.lonefibre.signal.recording.Annotation;
import org.lonefibre.signal.recording.RecordingFormatException;
import org.lonefibre.signal.recording.Segment;
import org.lonefibre.signal.recording.TimeBase;

/**
 * Sweeps that were cut before: each row is the time of its cut in seconds, then its samples. Each
 * becomes a stretch by itself, and its cut an annotation {@code trigger}.
 */
final class SweepRows {

  final NumberColumn samples = new NumberColumn();
  final List<Segment> segments = new ArrayList<>();
  final List<Annotation> triggers = new ArrayList<>();

  private final String file;
  private final TimeBase timeBase;
  private final DecimalText number;
  private double originS;
  private double endS = Double.NEGATIVE_INFINITY;

  SweepRows(String file, TimeBase timeBase, char decimalMark) {
    this.file = file;
    this.timeBase = timeBase;
    this.number = new DecimalText(decimalMark);
  }

  /**
   * Reads all rows but those of the header.
   *
   * @throws RecordingFormatException if a row is no sweep, or begins before the last one ends
   */
  void parse(TextRows rows, int headerRows) throws IOException {
    int header = headerRows;
    TextRows.Row row;
    while ((row = rows.next()) != null) {
      if (header-- > 0) {
        continue;
      }
      add(row);
    }
  }

  private void add(TextRows.Row row) throws RecordingFormatException {
    int columns = TextLayout.columns(row.fields());
    if (columns < 3) {
      throw fault(row, 1, "a time and two samples or more", columns + " numbers");
    }
    double startS = value(row, 0);
    int first = samples.size();
    for (int c = 1; c < columns; c++) {
      samples.add(value(row, c));
    }
    originS = segments.isEmpty() ? startS : originS;
    if (startS < endS - 0.5 * timeBase.timeS(1)) {
      throw fault(
          row, 1, "a time after the end of the sweep before, " + endS + " s", startS + " s");
    }
    endS = startS + timeBase.timeS(columns - 1.0);
    segments.add(new Segment(first, columns - 1L, startS - originS));
    triggers.add(new Annotation(startS - originS, null, "trigger"));
  }

  private double value(TextRows.Row row, int column) throws RecordingFormatException {
    String field = row.fields().get(column);
    if (!number.readSample(field)) {
      throw fault(row, column + 1, "a number", field.isBlank() ? "nothing" : field);
    }
    return number.value();
  }

  private RecordingFormatException fault(
      TextRows.Row row, int column, String expected, String found) {
    return new RecordingFormatException(
        file,
        "line " + row.line() + ", column " + column,
        expected,
        found,
        "mend or remove that line");
  }
}
