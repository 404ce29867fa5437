package org.lonefibre.formats.wfdb;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import org.lonefibre.formats.reader.SampleRuns;

/** One channel over all parts of a record. */
final class ChannelPieces {

  /** Converter numbers read at once. */
  private static final int CHUNK = 1 << 15;

  /**
   * The channel in one part.
   *
   * @param sourceStart index in the channel of the first sample of this piece
   * @param sourceEnd index after the last
   * @param fileStart index of that first sample among those of its signal in the file
   */
  record Piece(
      SignalFile file,
      int signal,
      long sourceStart,
      long sourceEnd,
      long fileStart,
      SignalScan scan) {

    WfdbSignalLine line() {
      return file.signals.get(signal);
    }
  }

  final WfdbSignalLine first;
  final SampleRuns.Builder runs = new SampleRuns.Builder();
  final List<Piece> pieces = new ArrayList<>();
  private double[] factors = new double[0];

  /**
   * @param first what the header of the record says of the channel
   */
  ChannelPieces(WfdbSignalLine first) {
    this.first = first;
  }

  /** Whether samples are missing more often than is kept. */
  boolean isTooBroken() {
    return pieces.stream().anyMatch(piece -> piece.scan().isTooBroken());
  }

  /**
   * Settles what one converter step is.
   *
   * @param perPiece unit of the samples in one converter step, for each piece
   */
  void scale(double[] perPiece) {
    factors = perPiece.clone();
  }

  /** Reads samples that are there, by their index in the channel, missing ones included. */
  void read(OpenFiles files, long first, double[] destination, int offset, int length)
      throws IOException {
    int most = Math.min(length, CHUNK);
    int[] numbers = files.numbers(most);
    int done = 0;
    int p = pieceOf(first);
    while (done < length) {
      Piece piece = pieces.get(p);
      long at = first + done;
      if (at >= piece.sourceEnd()) {
        p++;
        continue;
      }
      int count = (int) Math.min(most, Math.min(length - done, piece.sourceEnd() - at));
      piece
          .file()
          .read(
              files,
              piece.signal(),
              piece.fileStart() + at - piece.sourceStart(),
              numbers,
              0,
              count);
      double baseline = piece.line().baseline();
      double factor = factors[p];
      for (int k = 0; k < count; k++) {
        destination[offset + done + k] = (numbers[k] - baseline) * factor;
      }
      done += count;
    }
  }

  private int pieceOf(long source) {
    int low = 0;
    int high = pieces.size() - 1;
    while (low < high) {
      int middle = (low + high + 1) >>> 1;
      if (pieces.get(middle).sourceStart() <= source) {
        low = middle;
      } else {
        high = middle - 1;
      }
    }
    return low;
  }
}
