package org.lonefibre.signal.filter;

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

  private final SecondOrderSections filter;
  private final int overlap;
  private final int extension;

  /** Prepares a filter. */
  public ZeroPhase(SecondOrderSections filter) {
    this.filter = filter;
    this.overlap = filter.settlingLength(FORGOTTEN);
    this.extension = filter.extensionLength();
  }

  /** Samples needed beyond the wanted ones, on each side where the signal goes on. */
  public int overlapLength() {
    return overlap;
  }

  /** The whole signal, filtered both ways; the argument is left as it was. */
  public double[] filter(double[] signal) {
    double[] causal = new double[signal.length];
    double[] zeroPhase = new double[signal.length];
    if (signal.length > 0) {
      filter(signal, signal.length, Edge.END, Edge.END, 0, causal, zeroPhase, signal.length);
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
   * @param causal receives the wanted samples filtered forwards, from 0 on
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
      double[] causal,
      double[] zeroPhase,
      int wanted) {
    if (length < 1 || wantedFrom < 0 || wanted < 0 || wantedFrom > length - wanted) {
      throw new IllegalArgumentException(
          "samples "
              + wantedFrom
              + " to "
              + (wantedFrom + wanted)
              + " do not lie inside a piece of "
              + length);
    }
    int before = start == Edge.END ? Math.min(extension, length - 1) : 0;
    int behind = end == Edge.END ? Math.min(extension, length - 1) : 0;
    double[] work = new double[before + length + behind];
    System.arraycopy(samples, 0, work, before, length);
    for (int k = 1; k <= before; k++) {
      work[before - k] = 2 * samples[0] - samples[k];
    }
    for (int k = 1; k <= behind; k++) {
      work[before + length - 1 + k] = 2 * samples[length - 1] - samples[length - 1 - k];
    }
    FilterRun run = new FilterRun(filter);
    run.settle(work[0]);
    run.forward(work, 0, work.length);
    System.arraycopy(work, before + wantedFrom, causal, 0, wanted);
    run.settle(work[work.length - 1]);
    run.backward(work, before + wantedFrom, work.length - before - wantedFrom);
    System.arraycopy(work, before + wantedFrom, zeroPhase, 0, wanted);
  }
}
