package org.lonefibre.formats.reader;

import java.io.IOException;
import java.util.List;
import org.lonefibre.signal.recording.RecordingFormatException;
import org.lonefibre.signal.recording.Segment;
import org.lonefibre.signal.recording.TimeBase;

/**
 * The stretches of a channel in which samples follow each other, where the source has times of its
 * own: what is missing is left out. Thread rule: immutable once made.
 */
final class TimedRuns {

  private static final int BLOCK = 1 << 16;

  private final SampleSource source;
  private final TimeBase timeBase;
  private final List<Segment> timing;
  private final SampleRuns runs;

  /**
   * @param timing continuous stretches of the source by its times
   */
  TimedRuns(String file, SampleSource source, TimeBase timeBase, List<Segment> timing)
      throws IOException {
    this.source = source;
    this.timeBase = timeBase;
    this.timing = List.copyOf(timing);
    SampleRuns.Builder builder = new SampleRuns.Builder();
    for (Segment segment : timing) {
      builder.cut();
      boolean fits =
          source.missing() == SampleSource.Missing.NEVER
              ? builder.add(segment.firstSample(), segment.sampleCount())
              : scan(builder, segment);
      if (!fits) {
        throw new RecordingFormatException(
            file,
            "samples from " + segment.firstSample() + " on",
            "a signal",
            "more than " + SampleRuns.MOST_RUNS + " gaps",
            "check which variable is meant");
      }
    }
    this.runs = builder.build();
  }

  /** Adds what is there; false if it is interrupted too often. */
  private boolean scan(SampleRuns.Builder builder, Segment segment) throws IOException {
    double[] block = new double[(int) Math.min(BLOCK, segment.sampleCount())];
    long from = segment.firstSample();
    for (long at = segment.firstSample(); at < segment.endSample(); at += block.length) {
      int length = (int) Math.min(block.length, segment.endSample() - at);
      source.read(at, block, 0, length);
      for (int k = 0; k < length; k++) {
        if (!SampleRange.holds(block[k])) {
          if (!builder.add(from, at + k - from)) {
            return false;
          }
          from = at + k + 1;
        }
      }
    }
    return builder.add(from, segment.endSample() - from);
  }

  long count() {
    return runs.sampleCount();
  }

  List<Segment> segments() {
    return runs.segments(this::timeS);
  }

  private double timeS(long sourceSample) {
    int low = 0;
    int high = timing.size() - 1;
    while (low < high) {
      int middle = (low + high + 1) >>> 1;
      if (timing.get(middle).firstSample() <= sourceSample) {
        low = middle;
      } else {
        high = middle - 1;
      }
    }
    Segment own = timing.get(low);
    return own.startS() + timeBase.timeS((double) (sourceSample - own.firstSample()));
  }

  void read(long first, double[] destination, int offset, int length) throws IOException {
    runs.forEach(
        first, length, (at, place, count) -> source.read(at, destination, offset + place, count));
  }
}
