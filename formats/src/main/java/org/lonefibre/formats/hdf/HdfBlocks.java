package org.lonefibre.formats.hdf;

import io.jhdf.api.Dataset;
import io.jhdf.object.datatype.FixedPoint;
import java.io.IOException;
import java.lang.reflect.Array;
import org.jspecify.annotations.Nullable;
import org.lonefibre.formats.reader.SampleSource;
import org.lonefibre.formats.reader.SourceRecording.WholeRange;
import org.lonefibre.signal.recording.RecordingFormatException;

/**
 * Reads a data set block by block along its longer side, all channels at once, and keeps the last
 * block. Thread rule: safe; one block is read at a time.
 */
final class HdfBlocks {

  /** Numbers in a block; engineering choice. */
  private static final int BLOCK_NUMBERS = 1 << 17;

  private static final int MOST_BLOCKS = 8;
  private static final int MOST_CHANNELS = 4096;

  private final String file;
  private final Dataset dataset;
  private final boolean isFlat;
  private final boolean isTimeFirst;
  private final long count;
  private final int channels;
  private final int rowsAtOnce;
  private final HdfChunks chunks;
  private double[][] block = new double[0][];
  private long blockFirst = -1;

  HdfBlocks(String file, Dataset dataset, long fileBytes) throws RecordingFormatException {
    this.file = file;
    this.dataset = dataset;
    long[] sides = dataset.getDimensionsAsLong();
    this.isFlat = sides.length == 1;
    this.isTimeFirst = isFlat || sides[0] > sides[1];
    this.count = isFlat ? sides[0] : Math.max(sides[0], sides[1]);
    long shorter = isFlat ? 1 : Math.min(sides[0], sides[1]);
    if (shorter == count && !isFlat || shorter > MOST_CHANNELS) {
      throw new RecordingFormatException(
          file,
          dataset.getPath(),
          "one longer side, which is time, and at most " + MOST_CHANNELS + " channels",
          sides[0] + " by " + sides[1],
          "save it as one column a channel");
    }
    this.channels = (int) shorter;
    this.chunks = HdfChunks.of(file, dataset, fileBytes);
    this.rowsAtOnce = rowsAtOnce();
  }

  /** Whole chunks where that is no more than a few blocks, so that none is unfolded twice. */
  private int rowsAtOnce() {
    int rows = Math.max(1, BLOCK_NUMBERS / channels);
    int chunk = chunks.side(isFlat || isTimeFirst ? 0 : 1);
    if (chunk > MOST_BLOCKS * rows) {
      return rows;
    }
    return chunk * Math.max(1, rows / chunk);
  }

  long count() {
    return count;
  }

  int channels() {
    return channels;
  }

  SampleSource source(int channel) {
    return new SampleSource() {
      @Override
      public long count() {
        return count;
      }

      @Override
      public Missing missing() {
        Class<?> type = dataset.getJavaType();
        boolean isReal = type == float.class || type == double.class;
        return isReal || !chunks.isWhole() ? Missing.NOT_FINITE : Missing.NEVER;
      }

      @Override
      public void read(long first, double[] destination, int offset, int length)
          throws IOException {
        copy(channel, first, destination, offset, length);
      }
    };
  }

  /** Range of stored whole numbers of up to 32 bits; null for others. */
  @Nullable WholeRange findRange() {
    if (!(dataset.getDataType() instanceof FixedPoint fixed) || fixed.getSize() > 4) {
      return null;
    }
    double half = Math.pow(2, 8.0 * fixed.getSize() - 1);
    return fixed.isSigned() ? new WholeRange(-half, half - 1) : new WholeRange(0, 2 * half - 1);
  }

  private synchronized void copy(
      int channel, long first, double[] destination, int offset, int length) throws IOException {
    int done = 0;
    while (done < length) {
      long at = first + done;
      long wanted = at / rowsAtOnce * rowsAtOnce;
      if (wanted != blockFirst) {
        load(wanted);
      }
      int within = (int) (at - blockFirst);
      int run = Math.min(length - done, block[channel].length - within);
      System.arraycopy(block[channel], within, destination, offset + done, run);
      done += run;
    }
  }

  /** What a library says went wrong; its kind where it says nothing. */
  static String reason(Throwable e) {
    String said = e.getMessage();
    return said == null ? "something broken (" + e.getClass().getSimpleName() + ")" : said;
  }

  private void load(long first) throws IOException {
    int rows = (int) Math.min(rowsAtOnce, count - first);
    double[][] loaded = new double[channels][rows];
    try {
      if (isFlat) {
        copyAll(dataset.getData(new long[] {first}, new int[] {rows}), loaded[0]);
      } else if (isTimeFirst) {
        Object slice = dataset.getData(new long[] {first, 0}, new int[] {rows, channels});
        double[] row = new double[channels];
        for (int r = 0; r < rows; r++) {
          copyAll(Array.get(slice, r), row);
          for (int c = 0; c < channels; c++) {
            loaded[c][r] = row[c];
          }
        }
      } else {
        Object slice = dataset.getData(new long[] {0, first}, new int[] {channels, rows});
        for (int c = 0; c < channels; c++) {
          copyAll(Array.get(slice, c), loaded[c]);
        }
      }
      markMissing(loaded, first, rows);
    } catch (RuntimeException | InternalError e) {
      RecordingFormatException fault =
          new RecordingFormatException(
              file,
              dataset.getPath() + ", sample " + first,
              rows + " numbers",
              reason(e),
              "save it again, or export it as EDF+");
      fault.initCause(e);
      throw fault;
    }
    block = loaded;
    blockFirst = first;
  }

  private void markMissing(double[][] loaded, long first, int rows) {
    if (chunks.isWhole()) {
      return;
    }
    for (int c = 0; c < channels; c++) {
      for (int r = 0; r < rows; r++) {
        long at = first + r;
        boolean isMissing =
            isFlat || isTimeFirst ? chunks.isMissing(at, c) : chunks.isMissing(c, at);
        loaded[c][r] = isMissing ? Double.NaN : loaded[c][r];
      }
    }
  }

  /** Copies an array of any kind of number. */
  private static void copyAll(Object from, double[] to) {
    if (from instanceof short[] shorts) {
      for (int k = 0; k < to.length; k++) {
        to[k] = shorts[k];
      }
    } else if (from instanceof int[] ints) {
      for (int k = 0; k < to.length; k++) {
        to[k] = ints[k];
      }
    } else if (from instanceof float[] floats) {
      for (int k = 0; k < to.length; k++) {
        to[k] = floats[k];
      }
    } else if (from instanceof double[] doubles) {
      System.arraycopy(doubles, 0, to, 0, to.length);
    } else {
      for (int k = 0; k < to.length; k++) {
        to[k] = Array.getDouble(from, k);
      }
    }
  }
}
