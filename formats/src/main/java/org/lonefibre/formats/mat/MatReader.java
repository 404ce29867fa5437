package org.lonefibre.formats.mat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lonefibre.formats.reader.ReadOptions;
import org.lonefibre.formats.reader.RecordingReader;
import org.lonefibre.formats.reader.SourceRecording;
import org.lonefibre.formats.reader.SourceRecording.Input;
import org.lonefibre.formats.reader.SourceRecording.WholeRange;
import org.lonefibre.formats.reader.Variables;
import org.lonefibre.signal.recording.Recording;
import org.lonefibre.signal.recording.RecordingFormatException;
import org.lonefibre.signal.recording.Segment;
import org.lonefibre.signal.recording.TimeBase;
import us.hebi.matlab.mat.types.MatlabType;
import us.hebi.matlab.mat.types.Matrix;

/**
 * Reads MATLAB files of the versions 5 to 7.2; version 7.3 is HDF5.
 *
 * <ul>
 *   <li>A real matrix is a signal: its longer side is time, the shorter one channels. Equal sides
 *       are refused.
 *   <li>The rate is told; a number in the file that may be one is shown, never taken.
 *   <li>The matrix is held in memory, as these files cannot be read in part.
 *   <li>Thread rule: safe, keeps nothing between calls.
 * </ul>
 */
public final class MatReader implements RecordingReader {

  private static final int HEADER_BYTES = 128;
  private static final int MARK = 126;

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
    MatFileDoor door = new MatFileDoor(file);
    MatFileDoor.Content content = door.look();
    String aside = String.join(", ", content.numbers());
    String variable = Variables.choose(name, content.candidates(), options.variable(), aside);
    double rateHz = Variables.rateHz(name, options.samplingRateHz(), aside);
    Matrix matrix = door.matrix(variable);
    int rows = matrix.getNumRows();
    int columns = matrix.getNumCols();
    if (rows == columns) {
      throw new RecordingFormatException(
          name,
          variable,
          "a matrix with one longer side, which is time",
          rows + " by " + columns,
          "save it as one column a channel");
    }
    int count = Math.max(rows, columns);
    int channels = Math.min(rows, columns);
    List<Input> inputs = new ArrayList<>();
    for (int c = 0; c < channels; c++) {
      String label = channels == 1 ? variable : variable + " " + (c + 1);
      inputs.add(new Input(label, "", new MatrixSource(matrix, c), 1, 0, range(matrix.getType())));
    }
    return new SourceRecording(
        name,
        "MATLAB 5",
        TimeBase.ofHz(rateHz),
        List.of(new Segment(0, count, 0)),
        inputs,
        List.of(),
        options,
        () -> {});
  }

  /** Range of whole numbers that a double holds exactly; null for other kinds. */
  private static @Nullable WholeRange range(MatlabType type) {
    return switch (type) {
      case Int8 -> new WholeRange(-128, 127);
      case UInt8 -> new WholeRange(0, 255);
      case Int16 -> new WholeRange(-32_768, 32_767);
      case UInt16 -> new WholeRange(0, 65_535);
      case Int32 -> new WholeRange(Integer.MIN_VALUE, Integer.MAX_VALUE);
      case UInt32 -> new WholeRange(0, 4_294_967_295.0);
      default -> null;
    };
  }
}
