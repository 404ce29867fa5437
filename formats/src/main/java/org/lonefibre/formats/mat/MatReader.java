package org.lonefibre.formats.mat;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.lonefibre.formats.reader.ReadOptions;
import org.lonefibre.formats.reader.RecordingReader;
import org.lonefibre.formats.reader.SourceRecording;
import org.lonefibre.formats.reader.SourceRecording.Input;
import org.lonefibre.formats.reader.Variables;
import org.lonefibre.signal.recording.Recording;
import org.lonefibre.signal.recording.RecordingFormatException;
import org.lonefibre.signal.recording.Segment;
import org.lonefibre.signal.recording.TimeBase;

/**
 * Reads MATLAB files of the versions 5 to 7.2; version 7.3 is HDF5.
 *
 * <ul>
 *   <li>A real matrix is a signal: its longer side is time, the shorter one channels. Equal sides
 *       are refused.
 *   <li>The rate is told; a number in the file that may be one is shown, never taken.
 *   <li>Numbers stay in the file; compressed ones are unfolded piece by piece, and anew when what
 *       lies behind is asked for.
 *   <li>Thread rule: safe, keeps nothing between calls.
 * </ul>
 */
public final class MatReader implements RecordingReader {

  private static final int HEADER_BYTES = 128;
  private static final int MARK = 126;
  private static final int MOST_CHANNELS = 4096;

  @Override
  public boolean recognises(byte[] head) {
    if (head.length < HEADER_BYTES) {
      return false;
    }
    String text = new String(head, 0, HEADER_BYTES, StandardCharsets.ISO_8859_1);
    boolean little = text.startsWith("IM", MARK) && head[125] == 1;
    boolean big = text.startsWith("MI", MARK) && head[124] == 1;
    return (little || big) && text.startsWith("MATLAB");
  }

  @Override
  public Recording open(Path file, ReadOptions options) throws IOException {
    String name = String.valueOf(file.getFileName());
    FileChannel channel = FileChannel.open(file, StandardOpenOption.READ);
    try {
      MatVariables variables = MatVariables.of(name, channel);
      return recording(name, variables, options);
    } catch (IOException | RuntimeException e) {
      channel.close();
      throw e;
    }
  }

  private static Recording recording(String name, MatVariables variables, ReadOptions options)
      throws IOException {
    String aside = variables.numbers();
    String variable = Variables.choose(name, variables.candidates(), options.variable(), aside);
    double rateHz = Variables.rateHz(name, options.samplingRateHz(), aside);
    MatMatrix matrix = Objects.requireNonNull(variables.findMatrix(variable));
    long count = Math.max(matrix.rows(), matrix.columns());
    long channels = Math.min(matrix.rows(), matrix.columns());
    if (channels == count || channels > MOST_CHANNELS) {
      throw new RecordingFormatException(
          name,
          variable,
          "a matrix with one longer side, which is time, and at most "
              + MOST_CHANNELS
              + " channels",
          matrix.rows() + " by " + matrix.columns(),
          "save it as one column a channel");
    }
    List<Input> inputs = new ArrayList<>();
    for (int c = 0; c < channels; c++) {
      String label = channels == 1 ? variable : variable + " " + (c + 1);
      inputs.add(new Input(label, "", matrix.channel(c), 1, 0, matrix.findRange()));
    }
    return new SourceRecording(
        name,
        "MATLAB 5",
        TimeBase.ofHz(rateHz),
        List.of(new Segment(0, count, 0)),
        inputs,
        List.of(),
        options,
        null,
        variables);
  }
}
