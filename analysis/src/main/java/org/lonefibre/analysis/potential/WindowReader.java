package org.lonefibre.analysis.potential;

import java.util.Arrays;
import org.lonefibre.analysis.conditioning.ConditionedSignal;
import org.lonefibre.signal.recording.Segment;

/** Reads windows that may reach over the ends of a continuous segment; there they are zero. */
final class WindowReader {

  private final ConditionedSignal signal;

  WindowReader(ConditionedSignal signal) {
    this.signal = signal;
  }

  /** Fills a window that starts at a sample of the channel. */
  void read(int segment, long start, double[] window) {
    Segment within = signal.segments().get(segment);
    long from = Math.max(start, within.firstSample());
    long to = Math.min(start + window.length, within.endSample());
    if (from > start || to < start + window.length) {
      Arrays.fill(window, 0);
    }
    if (to > from) {
      signal.read(from, window, (int) (from - start), (int) (to - from));
    }
  }
}
