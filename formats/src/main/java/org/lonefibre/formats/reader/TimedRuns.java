package org.lonefibre.formats.reader;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import org.lonefibre.signal.recording.RecordingFormatException;
import org.lonefibre.signal.recording.Segment;
import org.lonefibre.signal.recording.TimeBase;

/**
 * The stretches of a channel in which samples follow each other: what is missing is left out, and
 * each stretch knows where it stands in the source. Thread rule: immutable once made.
 */
final class TimedRuns {

  private static final int BLOCK = 1 << 16;

  /** More stretches than this are no signal; engineering choice. */
  private static final int MOST_RUNS = 1_000_000;

  private record Run(long stored, long source, long count, double startS) {}

  private final SampleSource source;
  private final List<Run> runs = new ArrayList<>();
  private long stored;

  /**
   * @param timing continuous stretches of the source by its times
   */
  TimedRuns(String file, SampleSource source, TimeBase timeBase, List<Segment> timing)
      throws IOException {
    this.source = source;
    for (Segment segment : timing) {
      if (source.missing() == SampleSource.Missing.NEVER) {
        add(file, segment, timeBase, segment.firstSample(), segment.endSample());
      } else {
        scan(file, segment, timeBase);
      }
    }
  }

  private void scan(String file, Segment segment, TimeBase timeBase) throws IOException {
    double[] block = new double[(int) Math.min(BLOCK, segment.sampleCount())];
    long from = -1;
    for (long at = segment.firstSample(); at < segment.endSample(); at += block.length) {
      int length = (int) Math.min(block.length, segment.endSample() - at);
      source.read(at, block, 0, length);
      for (int k = 0; k < length; k++) {
        boolean there = SampleRange.holds(block[k]);
        if (there && from < 0) {
          from = at + k;
        } else if (!there && from >= 0) {
          add(file, segment, timeBase, from, at + k);
          from = -1;
        }
      }
    }
    if (from >= 0) {
      add(file, segment, timeBase, from, segment.endSample());
    }
  }

  private void add(String file, Segment segment, TimeBase timeBase, long from, long end)
      throws IOException {
    if (runs.size() >= MOST_RUNS) {
      throw new RecordingFormatException(
          file,
          "sample " + from,
          "a signal",
          "more than " + MOST_RUNS + " gaps",
          "check which variable is meant");
    }
    double startS = segment.startS() + timeBase.timeS((double) (from - segment.firstSample()));
    runs.add(new Run(stored, from, end - from, startS));
    stored += end - from;
  }

  long count() {
    return stored;
  }

  List<Segment> segments() {
    return runs.stream().map(run -> new Segment(run.stored(), run.count(), run.startS())).toList();
  }

  void read(long first, double[] destination, int offset, int length) throws IOException {
    int done = 0;
    int r = find(first);
    while (done < length) {
      Run run = runs.get(r++);
      long within = first + done - run.stored();
      int count = (int) Math.min(length - done, run.count() - within);
      source.read(run.source() + within, destination, offset + done, count);
      done += count;
    }
  }

  private int find(long sample) {
    int low = 0;
    int high = runs.size() - 1;
    while (low < high) {
      int middle = (low + high + 1) >>> 1;
      if (runs.get(middle).stored() <= sample) {
        low = middle;
      } else {
        high = middle - 1;
      }
    }
    return low;
  }
}
