package org.lonefibre.analysis.chain;

/**
 * Something on the way that changed the signal.
 *
 * @param kind what it is
 * @param text one sentence with numbers and units
 */
public record ChainStep(Kind kind, String text) {

  /** What can change a signal on its way. */
  public enum Kind {
    /** The export's clock differs from the player's by more than 20 parts in a million. */
    CLOCK_OFF,
    /** Samples were lost or came to it. */
    SAMPLES_DROPPED,
    /** Large values are cut or compressed. */
    CLIPPED,
    /** Steps are coarser than the file says. */
    COARSE_STEPS,
    /** The response ends abruptly far below half the rate. */
    RESAMPLED,
    /** One filter was run twice. */
    FILTERED_TWICE,
    /** A tone comes back with more beside it than noise and steps explain. */
    LOSSY_CODING,
    /** Pairs of the signal are not in the export. */
    INCOMPLETE
  }
}
