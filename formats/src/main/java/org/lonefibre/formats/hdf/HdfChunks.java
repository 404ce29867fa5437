package org.lonefibre.formats.hdf;

import io.jhdf.api.Dataset;
import io.jhdf.api.dataset.ChunkedDataset;
import io.jhdf.exceptions.HdfException;
import java.util.BitSet;
import org.lonefibre.signal.recording.RecordingFormatException;

/**
 * The chunks of a data set. One that was never written has no samples: the library would give
 * zeros, and other programs the value for filling.
 */
final class HdfChunks {

  /** Larger ones are held whole while they are read; engineering choice. */
  private static final long MOST_BYTES = 256L << 20;

  /** The least that is granted to a chunk of a small file; engineering choice. */
  private static final long GRANTED_BYTES = 1 << 20;

  /** The most that one byte of deflate unfolds to (Deutsch 1996, RFC 1951), rounded up. */
  private static final long MOST_UNFOLDED = 1040;

  private final int[] sides;
  private final long acrossCount;
  private final BitSet missing;

  private HdfChunks(int[] sides, long acrossCount, BitSet missing) {
    this.sides = sides;
    this.acrossCount = acrossCount;
    this.missing = missing;
  }

  /**
   * Looks for every chunk.
   *
   * @param fileBytes length of the file
   * @throws RecordingFormatException if there are more chunks than bytes, or they are too large
   */
  static HdfChunks of(String file, Dataset dataset, long fileBytes)
      throws RecordingFormatException {
    long[] whole = dataset.getDimensionsAsLong();
    long across = whole.length == 1 ? 1 : whole[1];
    if (!(dataset instanceof ChunkedDataset chunked)) {
      int[] none = {Integer.MAX_VALUE, Integer.MAX_VALUE};
      return new HdfChunks(none, 1, new BitSet());
    }
    // The library counts places of chunks in 31 bits.
    if (Math.max(whole[0], across) > Integer.MAX_VALUE) {
      throw new RecordingFormatException(
          file,
          dataset.getPath(),
          "at most " + Integer.MAX_VALUE + " samples a channel in chunks",
          Long.toString(Math.max(whole[0], across)),
          "save it in one piece, without chunks, or divide it");
    }
    int[] own = chunked.getChunkDimensions();
    int[] sides = {own[0], own.length == 1 ? 1 : own[1]};
    if (own.length != whole.length || sides[0] < 1 || sides[1] < 1) {
      throw fault(file, dataset, "chunks with as many sides as the data", own.length + " sides");
    }
    double bytes = (double) sides[0] * sides[1] * dataset.getDataType().getSize();
    double most = Math.min(MOST_BYTES, GRANTED_BYTES + (double) MOST_UNFOLDED * fileBytes);
    if (bytes > most) {
      throw fault(file, dataset, "chunks of at most " + (long) most + " bytes", bytes + " bytes");
    }
    long down = (whole[0] - 1) / sides[0] + 1;
    long acrossCount = (across - 1) / sides[1] + 1;
    if ((double) down * acrossCount > Math.min(fileBytes, Integer.MAX_VALUE)) {
      throw fault(
          file, dataset, "at most a chunk a byte of file", down + " by " + acrossCount + " chunks");
    }
    BitSet missing = new BitSet();
    for (int d = 0; d < down; d++) {
      for (int a = 0; a < acrossCount; a++) {
        int[] at = {d * sides[0], a * sides[1]};
        if (!isThere(chunked, whole.length == 1 ? new int[] {at[0]} : at)) {
          missing.set((int) (d * acrossCount + a));
        }
      }
    }
    return new HdfChunks(sides, acrossCount, missing);
  }

  private static boolean isThere(ChunkedDataset dataset, int[] at) {
    try {
      dataset.getRawChunkBuffer(at);
      return true;
    } catch (HdfException e) {
      if (String.valueOf(e.getMessage()).startsWith("No chunk with offset")) {
        return false;
      }
      throw e;
    }
  }

  private static RecordingFormatException fault(
      String file, Dataset dataset, String expected, String found) {
    return new RecordingFormatException(
        file, dataset.getPath(), expected, found, "save it again, or export it as EDF+");
  }

  /** Whether every chunk was written. */
  boolean isWhole() {
    return missing.isEmpty();
  }

  /** Whether a number was never written. */
  boolean isMissing(long down, long across) {
    return missing.get((int) (down / sides[0] * acrossCount + across / sides[1]));
  }

  /** Length of a chunk along the first side, or the second. */
  int side(int which) {
    return sides[which];
  }
}
