package org.lonefibre.formats.writer;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import org.lonefibre.formats.edf.EdfReader;
import org.lonefibre.formats.reader.ReadOptions;
import org.lonefibre.signal.recording.Channel;
import org.lonefibre.signal.recording.Recording;
import org.lonefibre.signal.recording.RecordingFormatException;
import org.lonefibre.signal.recording.Segment;
import org.lonefibre.signal.recording.TimeBase;

/**
 * What was found when a copy was read again and compared, sample by sample, with its source.
 *
 * @param samples samples compared, over all channels
 * @param heldSamples samples that the copy has beyond the source: the last one held to the end of
 *     the last record
 * @param differing samples whose amplitude is not the same to the last bit; the converter's number
 *     is the same in all
 * @param largestDifference of the amplitudes, in steps of the converter; it comes from the eight
 *     characters in which the header states a range
 */
public record CopyProof(long samples, long heldSamples, long differing, double largestDifference) {

  private static final int BLOCK = 1 << 16;

  /** Times of stretches are the same if they differ by less; far under any sample. */
  private static final double SAME_TIME_S = 1e-9;

  /**
   * Compares.
   *
   * @throws RecordingFormatException if a rate, a stretch or a sample differs
   */
  static CopyProof of(Recording source, Path written) throws IOException {
    String file = String.valueOf(written.getFileName());
    try (Recording copy = new EdfReader().open(written, ReadOptions.defaults())) {
      List<Channel> wanted = source.channels();
      List<Channel> found = copy.channels();
      require(file, "signals", Integer.toString(wanted.size()), Integer.toString(found.size()));
      Tally tally = new Tally();
      for (int c = 0; c < wanted.size(); c++) {
        new Comparison(file, source, wanted.get(c), copy, found.get(c)).run(tally);
      }
      return new CopyProof(tally.samples, tally.held, tally.differing, tally.largest);
    }
  }

  private static final class Tally {
    private long samples;
    private long held;
    private long differing;
    private double largest;
  }

  private record Comparison(
      String file, Recording source, Channel own, Recording copy, Channel copied) {

    void run(Tally tally) throws IOException {
      String place = "signal " + own.number();
      require(file, place + ", rate", text(own.timeBase()), text(copied.timeBase()));
      List<Segment> stretches = own.segments();
      require(
          file,
          place + ", stretches",
          Integer.toString(stretches.size()),
          Integer.toString(copied.segments().size()));
      for (int s = 0; s < stretches.size(); s++) {
        Segment one = stretches.get(s);
        Segment other = copied.segments().get(s);
        boolean last = s == stretches.size() - 1;
        boolean same =
            one.firstSample() == other.firstSample()
                && Math.abs(one.startS() - other.startS()) < SAME_TIME_S
                && (last
                    ? one.sampleCount() <= other.sampleCount()
                    : one.sampleCount() == other.sampleCount());
        if (!same) {
          throw differs(file, place + ", stretch " + (s + 1), one.toString(), other.toString());
        }
      }
      tally.held += copied.sampleCount() - own.sampleCount();
      double[] a = new double[BLOCK];
      double[] b = new double[BLOCK];
      for (long at = 0; at < own.sampleCount(); at += BLOCK) {
        int length = (int) Math.min(BLOCK, own.sampleCount() - at);
        source.read(own, at, a, 0, length);
        copy.read(copied, at, b, 0, length);
        for (int k = 0; k < length; k++) {
          if (a[k] != b[k]) {
            unequal(a[k], b[k], at + k, tally);
          }
        }
        tally.samples += length;
      }
    }

    private void unequal(double a, double b, long sample, Tally tally) throws IOException {
      Double step = own.resolutionUv();
      Double low = own.lowRailUv();
      Double copiedLow = copied.lowRailUv();
      Double copiedStep = copied.resolutionUv();
      if (step == null
          || low == null
          || copiedLow == null
          || copiedStep == null
          || Math.rint((a - low) / step) != Math.rint((b - copiedLow) / copiedStep)) {
        throw differs(
            file,
            "signal " + own.number() + ", sample " + sample,
            Double.toString(a),
            Double.toString(b));
      }
      tally.differing++;
      tally.largest = Math.max(tally.largest, Math.abs(a - b) / step);
    }

    private static String text(TimeBase rate) {
      return rate.samples() + "/" + rate.seconds();
    }
  }

  private static void require(String file, String place, String wanted, String found)
      throws IOException {
    if (!wanted.equals(found)) {
      throw differs(file, place, wanted, found);
    }
  }

  private static RecordingFormatException differs(
      String file, String place, String wanted, String found) {
    return new RecordingFormatException(
        file, place, wanted + " as in the source", found, "nothing was kept; report this");
  }
}
