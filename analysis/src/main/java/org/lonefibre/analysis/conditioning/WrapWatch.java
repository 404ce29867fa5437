package org.lonefibre.analysis.conditioning;

import java.util.ArrayList;
import java.util.List;
import org.lonefibre.signal.recording.Channel;

/**
 * Finds samples that left the converter's range at one end and came in at the other.
 *
 * <p>A step of 0.8 of the range or more that a turn of the range would make smaller than a fifth of
 * it, and a step back the other way within a second, between them no sample that a saturated
 * artefact could not explain better (both sides of the step exactly at the rails). With rails not
 * known, the range is that of 16 bit if the samples are whole numbers. Engineering choices.
 */
final class WrapWatch {

  private static final double JUMP_RATIO = 0.8;
  private static final double LEFT_RATIO = 0.2;
  private static final double LONGEST_S = 1;
  private static final double SIXTEEN_BIT = 65_536;

  private final double range;
  private final double low;
  private final double high;
  private final boolean railsKnown;
  private final long longest;
  private final List<Stretch> wrapped = new ArrayList<>();
  private long openedAt = -1;
  private double openedWith;

  WrapWatch(Channel channel) {
    Double lowRail = channel.lowRailUv();
    Double highRail = channel.highRailUv();
    railsKnown = lowRail != null && highRail != null && !lowRail.equals(highRail);
    low = lowRail != null && highRail != null ? Math.min(lowRail, highRail) : -SIXTEEN_BIT / 2;
    high = lowRail != null && highRail != null ? Math.max(lowRail, highRail) : SIXTEEN_BIT / 2 - 1;
    range = railsKnown ? high - low : SIXTEEN_BIT;
    longest = (long) (LONGEST_S * channel.timeBase().samplingRateHz());
  }

  /** Smallest step worth a look. */
  double threshold() {
    return JUMP_RATIO * range;
  }

  /** A step that long has one end at or below this level, or one at or above {@link #high}. */
  double low() {
    return (low + high) / 2 - threshold() / 2;
  }

  /** See {@link #low}. */
  double high() {
    return (low + high) / 2 + threshold() / 2;
  }

  void look(double[] samples, int from, int to, long place, double before) {
    double last = before;
    for (int i = from; i < to; i++) {
      double step = samples[i] - last;
      if (Math.abs(step) >= threshold() && isWrap(last, samples[i], step)) {
        long sample = place + (i - from);
        if (openedAt >= 0 && step * openedWith < 0 && sample - openedAt <= longest) {
          wrapped.add(new Stretch(openedAt, sample));
          openedAt = -1;
        } else {
          openedAt = sample;
          openedWith = step;
        }
      }
      last = samples[i];
    }
  }

  private boolean isWrap(double last, double next, double step) {
    double left = Math.abs(Math.abs(step) - range);
    if (left > LEFT_RATIO * range) {
      return false;
    }
    if (railsKnown) {
      boolean railToRail = (last == low || last == high) && (next == low || next == high);
      return !railToRail;
    }
    return last == Math.rint(last)
        && next == Math.rint(next)
        && Math.min(last, next) >= low
        && Math.max(last, next) <= high;
  }

  void endSegment() {
    openedAt = -1;
  }

  List<Stretch> wrapped() {
    return Stretch.merged(wrapped, SiteScan.GROUP);
  }
}
