package org.lonefibre.workbench.site;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.FloatBuffer;
import java.util.Optional;
import org.lonefibre.analysis.conditioning.ConditionedSignal;
import org.lonefibre.signal.recording.Segment;

/**
 * The conditioned signal of a site as minima and maxima over blocks: however far it is zoomed out,
 * no spike is hidden.
 *
 * <p>Thread rule: immutable, safe to share.
 */
final class SiteTrace {

  private static final int BLOCK = 64;

  private final ConditionedSignal signal;
  private final long first;
  private final float[] low;
  private final float[] high;

  private SiteTrace(ConditionedSignal signal, long first, float[] low, float[] high) {
    this.signal = signal;
    this.first = first;
    this.low = low;
    this.high = high;
  }

  static SiteTrace of(ConditionedSignal signal) {
    long first = signal.firstSample();
    int blocks = blocks(signal);
    float[] low = new float[blocks];
    float[] high = new float[blocks];
    double[] values = new double[BLOCK];
    for (int b = 0; b < blocks; b++) {
      low[b] = Float.POSITIVE_INFINITY;
      high[b] = Float.NEGATIVE_INFINITY;
      long from = first + (long) b * BLOCK;
      for (Segment segment : signal.segments()) {
        long start = Math.max(from, segment.firstSample());
        long end = Math.min(from + BLOCK, segment.endSample());
        if (end > start) {
          int length = (int) (end - start);
          signal.read(start, values, 0, length);
          for (int i = 0; i < length; i++) {
            low[b] = Math.min(low[b], (float) values[i]);
            high[b] = Math.max(high[b], (float) values[i]);
          }
        }
      }
    }
    return new SiteTrace(signal, first, low, high);
  }

  /**
   * The trace of a signal from minima and maxima that were kept.
   *
   * @param content what {@link #content} gave of the same signal
   */
  static Optional<SiteTrace> of(ConditionedSignal signal, byte[] content) {
    int blocks = blocks(signal);
    if (content.length != 2L * Float.BYTES * blocks) {
      return Optional.empty();
    }
    FloatBuffer values = ByteBuffer.wrap(content).order(ByteOrder.LITTLE_ENDIAN).asFloatBuffer();
    float[] low = new float[blocks];
    float[] high = new float[blocks];
    values.get(low).get(high);
    return Optional.of(new SiteTrace(signal, signal.firstSample(), low, high));
  }

  /** The minima and maxima, to be kept. */
  byte[] content() {
    ByteBuffer bytes =
        ByteBuffer.allocate(Float.BYTES * (low.length + high.length))
            .order(ByteOrder.LITTLE_ENDIAN);
    bytes.asFloatBuffer().put(low).put(high);
    return bytes.array();
  }

  private static int blocks(ConditionedSignal signal) {
    return (int) ((signal.endSample() - signal.firstSample() + BLOCK - 1) / BLOCK);
  }

  /** Minima and maxima, one pair a column; columns outside the signal are not numbers. */
  record Columns(float[] lowUv, float[] highUv) {}

  Columns columns(double startS, double endS, int count) {
    float[] lows = new float[count];
    float[] highs = new float[count];
    double[] buffer = new double[4 * BLOCK];
    double stepS = (endS - startS) / count;
    for (int c = 0; c < count; c++) {
      lows[c] = Float.NaN;
      highs[c] = Float.NaN;
      for (Segment segment : signal.segments()) {
        double from = position(segment, startS + c * stepS);
        double to = position(segment, startS + (c + 1) * stepS);
        long start = Math.max(segment.firstSample(), (long) Math.floor(from));
        long end =
            Math.min(
                segment.endSample(), Math.max((long) Math.ceil(to), (long) Math.floor(from) + 1));
        if (end > start) {
          reduce(start, end, buffer, lows, highs, c);
        }
      }
    }
    return new Columns(lows, highs);
  }

  private double position(Segment segment, double timeS) {
    return segment.firstSample() + signal.timeBase().positionSamples(timeS - segment.startS());
  }

  private void reduce(long start, long end, double[] buffer, float[] lows, float[] highs, int c) {
    float lowest = Float.isNaN(lows[c]) ? Float.POSITIVE_INFINITY : lows[c];
    float highest = Float.isNaN(highs[c]) ? Float.NEGATIVE_INFINITY : highs[c];
    if (end - start <= buffer.length) {
      int length = (int) (end - start);
      signal.read(start, buffer, 0, length);
      for (int i = 0; i < length; i++) {
        lowest = Math.min(lowest, (float) buffer[i]);
        highest = Math.max(highest, (float) buffer[i]);
      }
    } else {
      for (int b = (int) ((start - first) / BLOCK);
          b < low.length && first + (long) b * BLOCK < end;
          b++) {
        lowest = Math.min(lowest, low[b]);
        highest = Math.max(highest, high[b]);
      }
    }
    lows[c] = lowest;
    highs[c] = highest;
  }

  /** Memory of the minima and maxima. */
  long heldBytes() {
    return (long) Float.BYTES * (low.length + high.length);
  }

  ConditionedSignal signal() {
    return signal;
  }
}
