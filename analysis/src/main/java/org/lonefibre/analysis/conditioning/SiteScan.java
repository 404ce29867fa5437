package org.lonefibre.analysis.conditioning;

import java.util.ArrayList;
import java.util.List;
import org.lonefibre.analysis.conditioning.FilteredBlocks.RawVisitor;
import org.lonefibre.signal.recording.Channel;
import org.lonefibre.signal.recording.Segment;
import org.lonefibre.signal.robust.RobustStatistics;

/**
 * One look at every raw sample of a site: a group of 64 samples that reaches no watched level and
 * is not constant is passed over; only the others are looked at closely.
 *
 * <p>Engineering choices: a constant stretch is 20 ms or more; the rest is said at {@link
 * RailWatch}, {@link ExtremeWatch} and {@link WrapWatch}.
 */
final class SiteScan implements RawVisitor {

  static final int GROUP = 64;

  private static final double FLAT_US = 20_000;
  private static final int MOST_RANGES = 4096;

  private final double flatLength;
  private final List<Stretch> flat = new ArrayList<>();
  private final RailWatch rails;
  private final ExtremeWatch highest;
  private final ExtremeWatch lowest;
  private final WrapWatch wrap;
  private final SlowSignal slow;
  private final double resolution;
  private final double[] ranges = new double[MOST_RANGES];
  private int rangeCount;
  private int rangeSpacing = 16;
  private long groups;
  private long flatFrom = -1;
  private long flatTo = -1;
  private double flatValue;
  private double before;
  private long expected = -1;

  SiteScan(Channel channel) {
    flatLength = channel.timeBase().lengthSamples(FLAT_US);
    Double step = channel.resolutionUv();
    resolution = step == null ? 0 : Math.abs(step);
    rails = new RailWatch(channel);
    highest = new ExtremeWatch(1);
    lowest = new ExtremeWatch(-1);
    wrap = new WrapWatch(channel);
    slow = new SlowSignal(channel.timeBase().samplingRateHz());
  }

  @Override
  public void visit(Segment segment, long first, double[] samples, int offset, int length) {
    if (first != expected || first == segment.firstSample()) {
      endStretches();
      slow.startSegment();
      before = samples[offset];
    }
    expected = first + length;
    int end = offset + length;
    for (int from = offset; from < end; from += GROUP) {
      int to = Math.min(end, from + GROUP);
      boolean sampled = groups++ % rangeSpacing == 0;
      if (sampled || isSuspicious(samples, from, to)) {
        judge(samples, from, to, first + (from - offset), sampled);
      } else if (flatFrom >= 0) {
        endFlat();
      }
      slow.add(samples, from, to);
      before = samples[to - 1];
    }
  }

  /** Whether a group reaches a watched level or may be constant: two comparisons a sample. */
  private boolean isSuspicious(double[] samples, int from, int to) {
    double high = Math.min(highest.extreme(), Math.min(rails.high(), wrap.high()));
    double low = Math.max(-lowest.extreme(), Math.max(rails.low(), wrap.low()));
    for (int i = from; i < to; i++) {
      if (samples[i] >= high || samples[i] <= low) {
        return true;
      }
    }
    return samples[from] == samples[to - 1] && samples[from] == samples[(from + to) / 2];
  }

  private void judge(double[] samples, int from, int to, long place, boolean sampled) {
    double low = samples[from];
    double high = low;
    for (int i = from + 1; i < to; i++) {
      double x = samples[i];
      low = x < low ? x : low;
      high = x > high ? x : high;
    }
    if (high == low) {
      extendFlat(place, place + (to - from), low);
    } else if (flatFrom >= 0) {
      endFlat();
    }
    if (high >= rails.high() || low <= rails.low()) {
      rails.look(samples, from, to, place);
    }
    if (high >= highest.extreme()) {
      highest.look(samples, from, to, place);
    }
    if (-low >= lowest.extreme()) {
      lowest.look(samples, from, to, place);
    }
    if (Math.max(high, before) - Math.min(low, before) >= wrap.threshold()) {
      wrap.look(samples, from, to, place, before);
    }
    if (sampled) {
      noteRange(high - low);
    }
  }

  private void noteRange(double range) {
    if (rangeCount == MOST_RANGES) {
      rangeCount = MOST_RANGES / 2;
      rangeSpacing *= 2;
      for (int i = 0; i < rangeCount; i++) {
        ranges[i] = ranges[2 * i];
      }
    }
    ranges[rangeCount++] = range;
  }

  private void extendFlat(long first, long end, double value) {
    if (flatFrom >= 0 && value == flatValue && first == flatTo) {
      flatTo = end;
    } else {
      endFlat();
      flatFrom = first;
      flatTo = end;
      flatValue = value;
    }
  }

  private void endFlat() {
    if (flatFrom >= 0 && flatTo - flatFrom >= flatLength) {
      flat.add(new Stretch(flatFrom, flatTo));
    }
    flatFrom = -1;
  }

  private void endStretches() {
    endFlat();
    rails.endRun();
    highest.endRun();
    lowest.endRun();
    wrap.endSegment();
  }

  /** What was seen, after the last sample. */
  RawFacts facts(List<Stretch> garbage, List<Stretch> missing) {
    endStretches();
    List<Stretch> clipped = new ArrayList<>(rails.clipped());
    if (rangeCount > 0) {
      double usual = RobustStatistics.medianInPlace(ranges, rangeCount);
      double span = highest.extreme() + lowest.extreme();
      double centre = slow.mean();
      clipped.addAll(highest.clipped(centre, usual, span, resolution));
      clipped.addAll(lowest.clipped(-centre, usual, span, resolution));
    }
    clipped = Stretch.merged(clipped, GROUP);
    List<Stretch> all = new ArrayList<>(clipped);
    all.addAll(flat);
    all.addAll(wrap.wrapped());
    all.addAll(garbage);
    all.addAll(missing);
    return new RawFacts(
        clipped,
        List.copyOf(flat),
        wrap.wrapped(),
        missing,
        garbage,
        Stretch.merged(all, GROUP),
        slow);
  }
}
