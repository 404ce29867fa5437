package org.lonefibre.signal.filter;

import java.util.Arrays;
import org.jspecify.annotations.Nullable;

/**
 * A filter run forwards and then backwards, so that nothing moves in time; the forward half alone
 * is its causal twin.
 *
 * <p>At an end of the signal the samples are continued by odd reflection, 2 x(end) - x(end + k),
 * and the state starts from the steady state of the first value (as SciPy {@code sosfiltfilt} with
 * its defaults). Where the signal goes on, the caller gives {@link #overlapLength()} samples more
 * and the result is that of the whole to 1e-12 of the signal's size.
 *
 * <ul>
 *   <li>A signal shorter than the extension is extended by its length less one.
 *   <li>Thread rule: immutable, free to share.
 * </ul>
 */
public final class ZeroPhase {

  /** What lies beyond an edge of the samples given. */
  public enum Edge {
    /** Nothing: the signal ends there and is extended. */
    END,
    /** More signal: the outer samples serve only to let the filter settle. */
    CONTINUES
  }

  private static final double FORGOTTEN = 1e-13;

  /** Overlaps that must be wanted before two lanes, which share one, are quicker. */
  private static final int LANES_PAY = 8;

  private final SecondOrderSections filter;
  private final int overlap;
  private final int extension;
  private final @Nullable TwoLanes lanes;

  /** Prepares a filter. */
  public ZeroPhase(SecondOrderSections filter) {
    this.filter = filter;
    this.overlap = filter.settlingLength(FORGOTTEN);
    this.extension = filter.extensionLength();
    this.lanes = TwoLanes.of(filter);
  }

  /** Samples needed beyond the wanted ones, on each side where the signal goes on. */
  public int overlapLength() {
    return overlap;
  }

  /** The whole signal, filtered both ways; the argument is left as it was. */
  public double[] filter(double[] signal) {
    double[] forward = new double[signal.length];
    double[] zeroPhase = new double[signal.length];
    if (signal.length > 0) {
      filter(signal, signal.length, Edge.END, Edge.END, 0, forward, zeroPhase, signal.length);
    }
    return zeroPhase;
  }

  /**
   * Filters a piece of a signal.
   *
   * @param samples the piece, with its overlaps; left as it was
   * @param length number of samples in it, at least 1
   * @param start what lies before
   * @param end what lies behind
   * @param wantedFrom index in the piece of the first sample wanted
   * @param forward receives the wanted samples filtered forwards, at their indices in the piece;
   *     {@code length} long or longer, anything may stand in the rest of it afterwards
   * @param zeroPhase receives the wanted samples filtered both ways, from 0 on
   * @param wanted number of samples wanted
   * @throws IllegalArgumentException if the wanted samples do not lie inside the piece
   */
  public void filter(
      double[] samples,
      int length,
      Edge start,
      Edge end,
      int wantedFrom,
      double[] forward,
      double[] zeroPhase,
      int wanted) {
    if (length < 1
        || wantedFrom < 0
        || wanted < 0
        || wantedFrom > length - wanted
        || forward.length < length) {
      throw new IllegalArgumentException(
          "samples "
              + wantedFrom
              + " to "
              + (wantedFrom + wanted)
              + " do not lie inside a piece of "
              + length
              + " and a place for "
              + forward.length);
    }
    double[] before = before(samples, start == Edge.END ? Math.min(extension, length - 1) : 0);
    double[] behind =
        behind(samples, length, end == Edge.END ? Math.min(extension, length - 1) : 0);
    if (lanes != null && wanted > LANES_PAY * overlap) {
      inLanes(lanes, samples, length, before, behind, wantedFrom, forward, zeroPhase, wanted);
    } else {
      inTurn(samples, length, before, behind, wantedFrom, forward, zeroPhase, wanted);
    }
  }

  private static double[] before(double[] samples, int count) {
    double[] before = new double[count];
    for (int k = 1; k <= count; k++) {
      before[count - k] = 2 * samples[0] - samples[k];
    }
    return before;
  }

  private static double[] behind(double[] samples, int length, int count) {
    double[] behind = new double[count];
    for (int k = 1; k <= count; k++) {
      behind[k - 1] = 2 * samples[length - 1] - samples[length - 1 - k];
    }
    return behind;
  }

  private void inTurn(
      double[] samples,
      int length,
      double[] before,
      double[] behind,
      int wantedFrom,
      double[] forward,
      double[] zeroPhase,
      int wanted) {
    System.arraycopy(samples, 0, forward, 0, length);
    FilterRun run = new FilterRun(filter);
    run.settle(before.length > 0 ? before[0] : samples[0]);
    run.forward(before, 0, before.length);
    run.forward(forward, 0, length);
    run.forward(behind, 0, behind.length);
    run.settle(behind.length > 0 ? behind[behind.length - 1] : forward[length - 1]);
    run.backward(behind, 0, behind.length);
    int end = wantedFrom + wanted;
    run.backward(forward, end, length - end);
    System.arraycopy(forward, wantedFrom, zeroPhase, 0, wanted);
    run.backward(zeroPhase, 0, wanted);
  }

  /**
   * The second half of the way in a lane of its own, which begins an overlap early; what it makes
   * of the overlap is written over by the first lane.
   */
  private void inLanes(
      TwoLanes lanes,
      double[] samples,
      int length,
      double[] before,
      double[] behind,
      int wantedFrom,
      double[] forward,
      double[] zeroPhase,
      int wanted) {
    int past = TwoLanes.PAST;
    FilterRun run = new FilterRun(filter);
    run.settle(before.length > 0 ? before[0] : samples[0]);
    run.forward(before, 0, before.length);
    System.arraycopy(samples, 0, forward, 0, past);
    run.forward(forward, 0, past);
    int lane = lane(length - past);
    Arrays.fill(forward, length - lane - past, length - lane, 0);
    lanes.forward(samples, forward, past, length - lane, lane);

    double[] tail = Arrays.copyOfRange(samples, length - overlap, length + behind.length);
    System.arraycopy(behind, 0, tail, overlap, behind.length);
    run.settle(tail[0]);
    run.forward(tail, 0, tail.length);
    int end = wantedFrom + wanted;
    run.settle(behind.length > 0 ? tail[tail.length - 1] : forward[length - 1]);
    run.backward(tail, overlap, behind.length);
    double[] outer = Arrays.copyOfRange(forward, end - past, length);
    run.backward(outer, 0, outer.length);
    System.arraycopy(outer, 0, zeroPhase, wanted - past, past);
    lane = lane(wanted - past);
    Arrays.fill(zeroPhase, lane, lane + past, 0);
    lanes.backward(forward, zeroPhase, end - past - 1, wantedFrom + lane - 1, wantedFrom, lane);
  }

  /** Length of each of two lanes that share an overlap, an even number. */
  private int lane(int length) {
    return (length + overlap + 3) / 4 * 2;
  }
}
