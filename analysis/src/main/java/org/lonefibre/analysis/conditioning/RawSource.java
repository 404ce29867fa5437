package org.lonefibre.analysis.conditioning;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import org.lonefibre.signal.recording.Channel;
import org.lonefibre.signal.recording.Recording;
import org.lonefibre.signal.recording.Segment;

/**
 * The samples of the file inside a site, made fit for a filter.
 *
 * <ul>
 *   <li>A missing sample takes the value of the one before it (at the start of a segment, of the
 *       first that is there).
 *   <li>The first samples of a segment of the file that jump to the rest by more than twice the
 *       largest other step of the first second take the value of the first good one (engineering
 *       choice): a converter's start would ring in the filter like a potential.
 * </ul>
 */
final class RawSource {

  private static final int MOST_GARBAGE = 4;
  private static final double HEAD_S = 1;
  private static final int PIECE = 1 << 16;

  private final Recording recording;
  private final Channel channel;
  private final List<Segment> segments;
  private final List<Head> heads = new ArrayList<>();
  private final List<Stretch> missing = new ArrayList<>();

  /** Start of a segment whose first samples are replaced. */
  private record Head(long first, int count, double valueUv) {}

  RawSource(Recording recording, Channel channel, List<Segment> segments) throws IOException {
    this.recording = recording;
    this.channel = channel;
    this.segments = segments;
    for (Segment segment : segments) {
      if (channel.segments().stream().anyMatch(s -> s.firstSample() == segment.firstSample())) {
        findHead(segment);
      }
    }
  }

  /** Samples replaced at the start of segments. */
  List<Stretch> garbage() {
    return heads.stream().map(h -> new Stretch(h.first, h.first + h.count)).toList();
  }

  /** Reads samples that lie inside one segment of the site. */
  void read(long first, double[] destination, int offset, int length) throws IOException {
    recording.read(channel, first, destination, offset, length);
    for (Head head : heads) {
      long last = Math.min(head.first + head.count, first + length);
      for (long i = Math.max(first, head.first); i < last; i++) {
        destination[offset + (int) (i - first)] = head.valueUv;
      }
    }
    if (!allFinite(destination, offset, length)) {
      fill(first, destination, offset, length);
    }
  }

  /** Shows every sample of the site once, in order. */
  void visitAll(FilteredBlocks.RawVisitor visitor) throws IOException {
    double[] piece = new double[PIECE];
    for (Segment segment : segments) {
      for (long first = segment.firstSample(); first < segment.endSample(); first += PIECE) {
        int length = (int) Math.min(PIECE, segment.endSample() - first);
        read(first, piece, 0, length);
        visitor.visit(segment, first, piece, 0, length);
      }
    }
  }

  /** Samples that were not there, of what was read so far. */
  synchronized List<Stretch> missing() {
    return Stretch.merged(missing, 1);
  }

  private void findHead(Segment segment) throws IOException {
    int length =
        (int)
            Math.min(
                segment.sampleCount(),
                Math.max(64, Math.ceil(HEAD_S * channel.timeBase().samplingRateHz())));
    double[] head = new double[length];
    recording.read(channel, segment.firstSample(), head, 0, length);
    if (length < 8 * MOST_GARBAGE || !allFinite(head, 0, length)) {
      return;
    }
    double largest = 0;
    for (int i = MOST_GARBAGE + 1; i < length; i++) {
      largest = Math.max(largest, Math.abs(head[i] - head[i - 1]));
    }
    if (largest == 0) {
      return;
    }
    int garbage = 0;
    for (int i = 1; i <= MOST_GARBAGE; i++) {
      if (Math.abs(head[i] - head[i - 1]) > 2 * largest) {
        garbage = i;
      }
    }
    if (garbage > 0) {
      heads.add(new Head(segment.firstSample(), garbage, head[garbage]));
    }
  }

  static boolean allFinite(double[] samples, int offset, int length) {
    double a = 0;
    double b = 0;
    double c = 0;
    double d = 0;
    int end = offset + length;
    int i = offset;
    for (; i + 3 < end; i += 4) {
      a += samples[i] * 0;
      b += samples[i + 1] * 0;
      c += samples[i + 2] * 0;
      d += samples[i + 3] * 0;
    }
    for (; i < end; i++) {
      a += samples[i] * 0;
    }
    return a + b + c + d == 0;
  }

  private synchronized void fill(long first, double[] destination, int offset, int length)
      throws IOException {
    double value = Double.NaN;
    for (int i = offset; i < offset + length; i++) {
      if (Double.isFinite(destination[i])) {
        value = destination[i];
      } else {
        if (Double.isNaN(value)) {
          value = valueBefore(first);
        }
        note(first + i - offset);
        destination[i] = value;
      }
    }
  }

  private void note(long sample) {
    int last = missing.size() - 1;
    if (last >= 0 && missing.get(last).end() == sample) {
      missing.set(last, new Stretch(missing.get(last).first(), sample + 1));
    } else if (missing.stream().noneMatch(m -> m.first() <= sample && sample < m.end())) {
      missing.add(new Stretch(sample, sample + 1));
    }
  }

  /** Last sample there is before a place, else the first behind it, else 0. */
  private double valueBefore(long place) throws IOException {
    Segment segment =
        segments.stream()
            .filter(s -> s.firstSample() <= place && place < s.endSample())
            .findFirst()
            .orElseThrow();
    double[] piece = new double[4096];
    for (long end = place; end > segment.firstSample(); ) {
      int count = (int) Math.min(piece.length, end - segment.firstSample());
      recording.read(channel, end - count, piece, 0, count);
      for (int i = count - 1; i >= 0; i--) {
        if (Double.isFinite(piece[i])) {
          return piece[i];
        }
      }
      end -= count;
    }
    for (long from = place; from < segment.endSample(); ) {
      int count = (int) Math.min(piece.length, segment.endSample() - from);
      recording.read(channel, from, piece, 0, count);
      for (int i = 0; i < count; i++) {
        if (Double.isFinite(piece[i])) {
          return piece[i];
        }
      }
      from += count;
    }
    return 0;
  }
}
