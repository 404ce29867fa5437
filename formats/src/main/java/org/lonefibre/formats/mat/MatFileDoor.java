package org.lonefibre.formats.mat;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.lonefibre.formats.reader.Variables.Candidate;
import org.lonefibre.signal.recording.RecordingFormatException;
import us.hebi.matlab.mat.format.BufferAllocator;
import us.hebi.matlab.mat.format.Mat5;
import us.hebi.matlab.mat.format.Mat5File;
import us.hebi.matlab.mat.types.Array;
import us.hebi.matlab.mat.types.MatFile;
import us.hebi.matlab.mat.types.MatlabType;
import us.hebi.matlab.mat.types.Matrix;
import us.hebi.matlab.mat.types.Source;
import us.hebi.matlab.mat.types.Sources;
import us.hebi.matlab.mat.types.Struct;

/**
 * Opens a MATLAB file by the MAT File Library, and turns whatever goes wrong in it into one line.
 * What a file may claim to hold is bounded by what its bytes can unfold to.
 */
final class MatFileDoor {

  /** The most that one byte of deflate unfolds to (Deutsch 1996, RFC 1951), rounded up. */
  private static final long MOST_UNFOLDED = 1040;

  private static final long LEAST_BOUND = 1 << 20;
  private static final int MOST_NUMBERS = 8;
  private static final int DEEPEST = 8;

  private final Path file;
  private final Map<String, Matrix> matrices = new LinkedHashMap<>();

  /**
   * What stands in a file.
   *
   * @param candidates matrices that could be a signal
   * @param numbers single numbers with their names
   */
  record Content(List<Candidate> candidates, List<String> numbers) {}

  MatFileDoor(Path file) {
    this.file = file;
  }

  Content look() throws IOException {
    List<Candidate> candidates = new ArrayList<>();
    List<String> numbers = new ArrayList<>();
    byte[] bytes = Files.readAllBytes(file);
    try (Source source = Sources.wrap(bytes)) {
      // Closing the file would empty its matrices.
      Mat5File opened =
          Mat5.newReader(source)
              .setBufferAllocator(new Bounded(bytes.length))
              .disableSubsystemProcessing()
              .readMat();
      for (MatFile.Entry entry : opened.getEntries()) {
        collect(entry.getName(), entry.getValue(), 0);
      }
      for (Map.Entry<String, Matrix> entry : matrices.entrySet()) {
        Matrix matrix = entry.getValue();
        if (matrix.getNumElements() > 1) {
          candidates.add(new Candidate(entry.getKey(), description(matrix)));
        } else if (matrix.getNumElements() == 1 && numbers.size() < MOST_NUMBERS) {
          numbers.add(entry.getKey() + " = " + matrix.getDouble(0));
        }
      }
    } catch (RecordingFormatException e) {
      throw e;
    } catch (IOException | RuntimeException | StackOverflowError e) {
      throw broken(e);
    }
    return new Content(candidates, numbers);
  }

  /** A matrix that {@link #look} listed. */
  Matrix matrix(String name) throws RecordingFormatException {
    Matrix matrix = matrices.get(name);
    if (matrix == null) {
      throw broken(new IllegalArgumentException("no matrix " + name));
    }
    return matrix;
  }

  private void collect(String name, Array array, int depth) {
    if (array instanceof Matrix matrix) {
      boolean flat = matrix.getNumDimensions() == 2;
      if (flat && !matrix.isComplex() && !matrix.isLogical()) {
        matrices.put(name, matrix);
      }
    } else if (array instanceof Struct struct
        && array.getType() == MatlabType.Structure
        && struct.getNumElements() == 1
        && depth < DEEPEST) {
      for (String field : struct.getFieldNames()) {
        collect(name + "." + field, struct.get(field), depth + 1);
      }
    }
  }

  private static String description(Matrix matrix) {
    return matrix.getNumRows()
        + " by "
        + matrix.getNumCols()
        + ", "
        + matrix.getType().toString().toLowerCase(java.util.Locale.ROOT);
  }

  private RecordingFormatException broken(Throwable cause) {
    RecordingFormatException fault =
        new RecordingFormatException(
            String.valueOf(file.getFileName()),
            "MATLAB file",
            "variables that can be read",
            String.valueOf(cause.getMessage()),
            "save it again, or export it as EDF+");
    fault.initCause(cause);
    return fault;
  }

  /** Gives memory as long as it can come from so many bytes of file. */
  private static final class Bounded implements BufferAllocator {

    private long left;

    Bounded(long fileBytes) {
      left = LEAST_BOUND + MOST_UNFOLDED * fileBytes;
    }

    @Override
    public ByteBuffer allocate(int bytes) {
      left -= bytes;
      if (bytes < 0 || left < 0) {
        throw new IllegalArgumentException("more data claimed than the file can hold");
      }
      return ByteBuffer.allocate(bytes).order(ByteOrder.LITTLE_ENDIAN);
    }

    @Override
    public void release(ByteBuffer buffer) {
      // left to the garbage collector
    }
  }
}
