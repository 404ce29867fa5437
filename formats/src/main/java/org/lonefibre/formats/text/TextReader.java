package org.lonefibre.formats.text;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.Reader;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import org.jspecify.annotations.Nullable;
import org.lonefibre.formats.reader.AmplitudeUnit;
import org.lonefibre.formats.reader.ChannelFindings;
import org.lonefibre.formats.reader.ReadOptions;
import org.lonefibre.formats.reader.RecordingReader;
import org.lonefibre.signal.recording.Annotation;
import org.lonefibre.signal.recording.Channel;
import org.lonefibre.signal.recording.Channel.Calibration;
import org.lonefibre.signal.recording.Evidence;
import org.lonefibre.signal.recording.Finding;
import org.lonefibre.signal.recording.FindingCode;
import org.lonefibre.signal.recording.Recording;
import org.lonefibre.signal.recording.RecordingFormatException;
import org.lonefibre.signal.recording.Segment;
import org.lonefibre.signal.recording.TimeBase;

/**
 * Reads delimited text: comma, semicolon, tab or white space; decimal point or comma; with or
 * without a header; with a column of times, of running numbers, or neither.
 *
 * <ul>
 *   <li>Times give the rate; without them it has to be told, and is never guessed.
 *   <li>A row that is not of numbers, or of another width, is refused with its line.
 *   <li>A text of one long line is one signal; with {@link ReadOptions.Rows#SWEEPS} each row is a
 *       sweep.
 *   <li>A jump of time, or of running numbers, is a gap; uneven times are refused.
 *   <li>Thread rule: safe, keeps nothing between calls.
 * </ul>
 */
public final class TextReader implements RecordingReader {

  /** Milliseconds and microseconds, which a column of times without a unit may be in. */
  private static final int[] MORE_TIME_EXPONENTS = {3, 6};

  @Override
  public boolean recognises(byte[] head) {
    TextHead text = TextHead.find(head, head.length < HEAD_BYTES);
    return text != null
        && (OneLine.find(text.lines(), head.length < HEAD_BYTES) != null
            || TextLayout.detect(text.lines()) != null);
  }

  @Override
  public Recording open(Path file, ReadOptions options) throws IOException {
    String name = String.valueOf(file.getFileName());
    TextHead head = head(file);
    OneLine line = head == null ? null : OneLine.find(head.lines(), Files.size(file) < HEAD_BYTES);
    if (head != null && line != null && options.rows() == ReadOptions.Rows.SAMPLES) {
      return oneLine(name, file, head, line, options);
    }
    TextLayout layout = head == null ? null : TextLayout.detect(head.lines());
    if (head == null || layout == null) {
      throw new RecordingFormatException(
          name, "line 1", "columns of numbers", "something else", "export as delimited text");
    }
    if (layout.isAmbiguous) {
      throw new RecordingFormatException(
          name,
          "line 1",
          "a layout with one meaning",
          "pairs of whole numbers that may also be numbers with a decimal comma",
          "add a line with the names of the columns");
    }
    if (options.rows() == ReadOptions.Rows.SWEEPS) {
      return sweeps(name, file, head, layout, options);
    }
    TextTable table = new TextTable(name, layout);
    try (InputStream in = Files.newInputStream(file)) {
      in.skipNBytes(head.skippedBytes());
      Reader reader = new InputStreamReader(in, head.charset());
      table.parse(TextRows.of(name, reader, layout.delimiter));
    }
    return recording(name, head, layout, table, options);
  }

  private static @Nullable TextHead head(Path file) throws IOException {
    try (InputStream in = Files.newInputStream(file)) {
      byte[] bytes = in.readNBytes(HEAD_BYTES);
      return TextHead.find(bytes, bytes.length < HEAD_BYTES);
    }
  }

  private static Recording oneLine(
      String name, Path file, TextHead head, OneLine line, ReadOptions options) throws IOException {
    TimeBase timeBase = TimeBase.ofHz(rate(name, options));
    try (Reader reader = reader(file, head)) {
      NumberColumn numbers = line.parse(name, reader);
      List<Segment> whole = List.of(new Segment(0, numbers.size(), 0));
      return single(name, "line", timeBase, numbers, whole, List.of(), options);
    }
  }

  private static Recording sweeps(
      String name, Path file, TextHead head, TextLayout layout, ReadOptions options)
      throws IOException {
    TimeBase timeBase = TimeBase.ofHz(rate(name, options));
    SweepRows sweeps = new SweepRows(name, timeBase, layout.decimalMark);
    try (Reader reader = reader(file, head)) {
      sweeps.parse(TextRows.of(name, reader, layout.delimiter), layout.headerRows);
    }
    return single(
        name, "sweeps", timeBase, sweeps.samples, sweeps.segments, sweeps.triggers, options);
  }

  private static Recording single(
      String name,
      String label,
      TimeBase timeBase,
      NumberColumn numbers,
      List<Segment> segments,
      List<Annotation> annotations,
      ReadOptions options) {
    Double told = options.gainUvPerUnit();
    Channel channel =
        new Channel(
            1,
            label,
            "",
            told != null ? Calibration.MICROVOLT : Calibration.NONE,
            timeBase,
            numbers.size(),
            segments,
            null,
            null,
            null,
            "");
    return new TextRecording(
        name,
        List.of(channel),
        List.of(new TextRecording.Samples(numbers, told != null ? told : 1)),
        annotations,
        ChannelFindings.list(List.of(channel)));
  }

  private static double rate(String name, ReadOptions options) throws RecordingFormatException {
    Double given = options.samplingRateHz();
    if (given == null) {
      throw new RecordingFormatException(
          name, "line 1", "a rate", "none", "give the rate with --sampling-rate-hz");
    }
    return given;
  }

  private static Reader reader(Path file, TextHead head) throws IOException {
    InputStream in = Files.newInputStream(file);
    in.skipNBytes(head.skippedBytes());
    return new BufferedReader(new InputStreamReader(in, head.charset()), 1 << 16);
  }

  private static Recording recording(
      String name, TextHead head, TextLayout layout, TextTable table, ReadOptions options)
      throws RecordingFormatException {
    TimeColumn.Found time = time(name, layout, table, options.samplingRateHz());
    List<Channel> channels = new ArrayList<>();
    List<TextRecording.Samples> samples = new ArrayList<>();
    for (int c = 0; c < layout.names.size(); c++) {
      if (layout.roles.get(c) != TextLayout.Role.SAMPLES) {
        continue;
      }
      ColumnName column = layout.names.get(c);
      OptionalDouble unit = AmplitudeUnit.microvolts(column.unit());
      Double told = options.gainUvPerUnit();
      channels.add(
          new Channel(
              channels.size() + 1,
              column.label(),
              column.unit(),
              told != null || unit.isPresent() ? Calibration.MICROVOLT : Calibration.NONE,
              time.timeBase(),
              table.rows(),
              time.segments(),
              null,
              null,
              null,
              ""));
      samples.add(
          new TextRecording.Samples(table.columns.get(c), told != null ? told : unit.orElse(1)));
    }
    if (channels.isEmpty()) {
      throw new RecordingFormatException(
          name, "line 1, columns", "a column of samples", "only times", "export the signal too");
    }
    List<Finding> findings = new ArrayList<>(ChannelFindings.list(channels));
    if (head.isLatin()) {
      findings.add(
          Finding.note(
              FindingCode.TEXT_ENCODING,
              "The text is not valid UTF-8; it was read as Latin-1.",
              Evidence.NONE));
    }
    return new TextRecording(name, channels, samples, List.of(), findings);
  }

  private static TimeColumn.Found time(
      String name, TextLayout layout, TextTable table, @Nullable Double givenHz)
      throws RecordingFormatException {
    int time = layout.roles.indexOf(TextLayout.Role.TIME);
    if (time >= 0) {
      ColumnName column = layout.names.get(time);
      TimeColumn inSeconds = times(name, table, time, column.timeExponent());
      if (givenHz != null && !column.isTimeUnitKnown()) {
        for (int exponent : MORE_TIME_EXPONENTS) {
          TimeColumn other = times(name, table, time, exponent);
          if (other.fits(givenHz)) {
            return other.find(givenHz);
          }
        }
      }
      return inSeconds.find(givenHz);
    }
    if (givenHz == null) {
      throw new RecordingFormatException(
          name,
          "line 1, columns",
          "a column of times",
          "none",
          "give the rate with --sampling-rate-hz; a list of intervals is read by the command"
              + " intervals");
    }
    TimeBase timeBase = TimeBase.ofHz(givenHz);
    int index = layout.roles.indexOf(TextLayout.Role.INDEX);
    List<Segment> segments =
        index < 0
            ? List.of(new Segment(0, table.rows(), 0))
            : counted(name, table.columns.get(index), table, timeBase);
    return new TimeColumn.Found(timeBase, segments);
  }

  private static TimeColumn times(String name, TextTable table, int column, int exponent) {
    return new TimeColumn(
        name, table.columns.get(column), table.timeDecimals, exponent, table::lineOfRow);
  }

  /** Stretches in which running numbers go up by one. */
  private static List<Segment> counted(
      String name, NumberColumn index, TextTable table, TimeBase timeBase)
      throws RecordingFormatException {
    List<Segment> segments = new ArrayList<>();
    int first = 0;
    for (int i = 1; i <= index.size(); i++) {
      double step = i == index.size() ? 2 : index.at(i) - index.at(i - 1);
      if (i < index.size() && (step < 1 || step != Math.rint(step))) {
        throw new RecordingFormatException(
            name,
            "line " + table.lineOfRow(i) + ", running number",
            "a whole number above " + index.at(i - 1),
            Double.toString(index.at(i)),
            "export the recording again");
      }
      if (step > 1) {
        segments.add(new Segment(first, i - first, timeBase.timeS(index.at(first) - index.at(0))));
        first = i;
      }
    }
    if (segments.size() > 1 && segments.size() > index.size() / 2) {
      throw new RecordingFormatException(
          name,
          "line " + table.lineOfRow(1) + ", running number",
          "numbers that go up by 1",
          "larger steps throughout",
          "export every sample");
    }
    return segments;
  }
}
