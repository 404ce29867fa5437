package org.lonefibre.formats.text;

import java.io.BufferedReader;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.OptionalDouble;
import org.lonefibre.formats.reader.AmplitudeUnit;
import org.lonefibre.formats.reader.ReadOptions;
import org.lonefibre.formats.reader.RecordingReader;
import org.lonefibre.signal.recording.Channel;
import org.lonefibre.signal.recording.Channel.Calibration;
import org.lonefibre.signal.recording.Recording;
import org.lonefibre.signal.recording.RecordingFormatException;
import org.lonefibre.signal.recording.Segment;
import org.lonefibre.signal.recording.TimeBase;

/**
 * Reads delimited text: comma, semicolon, tab or white space; decimal point or comma; with or
 * without a header; with a column of times, of running numbers, or neither.
 */
public final class TextReader implements RecordingReader {

  private static final int LOOK_LINES = 8;

  @Override
  public boolean recognises(byte[] head) {
    if (head.length == 0) {
      return false;
    }
    for (byte b : head) {
      if (b >= 0 && b < 32 && b != '\t' && b != '\r' && b != '\n') {
        return false;
      }
    }
    try {
      String start = new String(head, StandardCharsets.UTF_8).strip();
      if (start.startsWith("<") || start.startsWith("{")) {
        return false;
      }
      return TextLayout.detect(
              look(reader(new ByteArrayInputStream(head)), head.length < HEAD_BYTES))
          != null;
    } catch (IOException e) {
      return false;
    }
  }

  /** The first lines that are neither empty nor comments; the last may be cut unless whole. */
  private static List<String> look(BufferedReader reader, boolean whole) throws IOException {
    List<String> lines = new ArrayList<>();
    String line;
    while ((line = reader.readLine()) != null && lines.size() <= LOOK_LINES) {
      if (!isSkipped(line)) {
        lines.add(line);
      }
    }
    if (!whole && lines.size() > 1 && lines.size() <= LOOK_LINES) {
      lines.remove(lines.size() - 1);
    }
    return lines;
  }

  private static boolean isSkipped(String line) {
    return line.isBlank() || line.startsWith("#");
  }

  private static BufferedReader reader(InputStream in) {
    return new BufferedReader(new InputStreamReader(in, StandardCharsets.UTF_8), 1 << 16);
  }

  @Override
  public Recording open(Path file, ReadOptions options) throws IOException {
    String name = String.valueOf(file.getFileName());
    TextLayout layout;
    try (InputStream in = Files.newInputStream(file)) {
      byte[] head = in.readNBytes(HEAD_BYTES);
      layout =
          TextLayout.detect(look(reader(new ByteArrayInputStream(head)), head.length < HEAD_BYTES));
    }
    if (layout == null) {
      throw new RecordingFormatException(
          name, "line 1", "columns of numbers", "something else", "export as delimited text");
    }
    Columns columns = new Columns(layout.columns);
    try (BufferedReader in = reader(Files.newInputStream(file))) {
      columns.parse(name, in, layout);
    }
    return recording(name, layout, columns, options);
  }

  private static Recording recording(
      String name, TextLayout layout, Columns columns, ReadOptions options)
      throws RecordingFormatException {
    int time = timeColumn(layout, columns);
    TimeBase timeBase;
    List<Segment> segments;
    Double given = options.samplingRateHz();
    if (time >= 0) {
      double scale =
          switch (layout.unit(time)) {
            case "ms" -> 1e-3;
            case "us", "\u00b5s", "\u03bcs" -> 1e-6;
            default -> 1;
          };
      double[] times = columns.column(time);
      double[] digits = columns.digits(time);
      for (int i = 0; i < times.length; i++) {
        times[i] *= scale;
        digits[i] *= scale;
      }
      TimeColumn found = TimeColumn.of(name, times, digits, columns.firstLine, given);
      timeBase = found.timeBase;
      segments = found.segments;
    } else if (given != null) {
      timeBase = TimeBase.ofHz(given);
      segments = columns.rows == 0 ? List.of() : List.of(new Segment(0, columns.rows, 0));
    } else {
      throw new RecordingFormatException(
          name,
          "line 1, columns",
          "a column of times",
          "none",
          "give the rate with --sampling-rate-hz");
    }
    List<Channel> channels = new ArrayList<>();
    List<double[]> samples = new ArrayList<>();
    for (int c = 0; c < layout.columns; c++) {
      if (c != time && !layout.isNamedIndex(c)) {
        channels.add(channel(layout, c, channels.size() + 1, timeBase, columns, segments, options));
        samples.add(scaled(layout, c, columns.column(c), options));
      }
    }
    if (channels.isEmpty()) {
      throw new RecordingFormatException(
          name, "line 1, columns", "a column of samples", "only times", "export the signal too");
    }
    return new TextRecording(name, channels, samples);
  }

  private static double scale(TextLayout layout, int column, ReadOptions options) {
    Double told = options.gainUvPerUnit();
    return told != null ? told : AmplitudeUnit.microvolts(layout.unit(column)).orElse(1);
  }

  private static double[] scaled(
      TextLayout layout, int column, double[] values, ReadOptions options) {
    double scale = scale(layout, column, options);
    for (int i = 0; i < values.length; i++) {
      values[i] *= scale;
    }
    return values;
  }

  private static Channel channel(
      TextLayout layout,
      int column,
      int number,
      TimeBase timeBase,
      Columns columns,
      List<Segment> segments,
      ReadOptions options) {
    OptionalDouble unit = AmplitudeUnit.microvolts(layout.unit(column));
    boolean calibrated = options.gainUvPerUnit() != null || unit.isPresent();
    return new Channel(
        number,
        layout.label(column),
        layout.unit(column),
        calibrated ? Calibration.MICROVOLT : Calibration.NONE,
        timeBase,
        columns.rows,
        segments,
        null,
        null,
        null,
        "");
  }

  /** The column of times, or -1. */
  private static int timeColumn(TextLayout layout, Columns columns) {
    for (int c = 0; c < layout.columns; c++) {
      if (layout.isNamedTime(c)) {
        return c;
      }
    }
    if (layout.header != null || layout.columns < 2 || columns.rows < 3) {
      return -1;
    }
    double[] first = columns.column(0);
    for (int i = 1; i < first.length; i++) {
      if (!(first[i] > first[i - 1])) {
        return -1;
      }
    }
    return first[first.length - 1] == first[0] + first.length - 1 ? -1 : 0;
  }

  /** Numbers as they are parsed, one growing block a column. */
  private static final class Columns {

    private final double[][] values;
    private final byte[][] decimals;
    int rows;
    int firstLine = 1;

    Columns(int count) {
      values = new double[count][1024];
      decimals = new byte[count][1024];
    }

    double[] column(int c) {
      return Arrays.copyOf(values[c], rows);
    }

    /** Value of one unit of the last digit of each number. */
    double[] digits(int c) {
      double[] digits = new double[rows];
      for (int i = 0; i < rows; i++) {
        digits[i] = Math.pow(10, -decimals[c][i]);
      }
      return digits;
    }

    void parse(String file, BufferedReader in, TextLayout layout) throws IOException {
      boolean header = layout.header != null;
      int number = 0;
      String line;
      while ((line = in.readLine()) != null) {
        number++;
        if (isSkipped(line)) {
          continue;
        }
        if (header) {
          header = false;
          continue;
        }
        if (rows == 0) {
          firstLine = number;
        }
        row(file, number, TextLayout.split(line, layout.delimiter), layout.decimalComma);
      }
    }

    private void row(String file, int line, List<String> tokens, boolean decimalComma)
        throws RecordingFormatException {
      if (tokens.size() == values.length + 1 && tokens.get(values.length).isEmpty()) {
        tokens.remove(values.length);
      }
      if (tokens.size() != values.length) {
        throw new RecordingFormatException(
            file,
            "line " + line,
            values.length + " numbers",
            tokens.size() + " (" + String.join(" ", tokens) + ")",
            "mend or remove that line");
      }
      for (int c = 0; c < values.length; c++) {
        Double value = TextLayout.number(tokens.get(c), decimalComma);
        if (value == null) {
          throw new RecordingFormatException(
              file,
              "line " + line + ", column " + (c + 1),
              "a number",
              tokens.get(c).isEmpty() ? "nothing" : tokens.get(c),
              "mend or remove that line");
        }
        if (rows == values[c].length) {
          values[c] = Arrays.copyOf(values[c], 2 * rows);
          decimals[c] = Arrays.copyOf(decimals[c], 2 * rows);
        }
        values[c][rows] = value;
        decimals[c][rows] = decimals(tokens.get(c), decimalComma);
      }
      rows++;
    }

    private static byte decimals(String token, boolean decimalComma) {
      int exponent = 0;
      String text = token.strip();
      int e = Math.max(text.indexOf('e'), text.indexOf('E'));
      if (e >= 0) {
        exponent = Integer.parseInt(text.substring(e + 1));
        text = text.substring(0, e);
      }
      int mark = text.indexOf(decimalComma ? ',' : '.');
      int digits = mark < 0 ? 0 : text.length() - mark - 1;
      return (byte) Math.max(-100, Math.min(100, digits - exponent));
    }
  }

  /** Text once parsed. */
  private static final class TextRecording implements Recording {

    private final String file;
    private final List<Channel> channels;
    private final List<double[]> samples;
    private boolean closed;

    TextRecording(String file, List<Channel> channels, List<double[]> samples) {
      this.file = file;
      this.channels = List.copyOf(channels);
      this.samples = samples;
    }

    @Override
    public String format() {
      return "text";
    }

    @Override
    public java.util.Optional<java.time.LocalDateTime> findStart() {
      return java.util.Optional.empty();
    }

    @Override
    public List<Channel> channels() {
      return channels;
    }

    @Override
    public List<org.lonefibre.signal.recording.Annotation> annotations() {
      return List.of();
    }

    @Override
    public List<org.lonefibre.signal.recording.Finding> findings() {
      return List.of();
    }

    @Override
    public void read(
        Channel channel, long firstSample, double[] destination, int offset, int length)
        throws IOException {
      if (closed) {
        throw new java.nio.channels.ClosedChannelException();
      }
      int index = channel.number() - 1;
      if (index < 0 || index >= samples.size()) {
        throw new IllegalArgumentException("no channel " + channel.number() + " in " + file);
      }
      double[] source = samples.get(index);
      if (firstSample < 0 || length < 0 || firstSample + length > source.length) {
        throw new IllegalArgumentException(
            "samples "
                + firstSample
                + " to "
                + (firstSample + length)
                + " lie outside channel "
                + channel.number()
                + " of "
                + source.length
                + " samples");
      }
      System.arraycopy(source, (int) firstSample, destination, offset, length);
    }

    @Override
    public void close() {
      closed = true;
    }
  }
}
