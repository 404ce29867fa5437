package org.lonefibre.analysis.study;

import org.jspecify.annotations.Nullable;

/**
 * What can be said of one criterion after the signals so far.
 *
 * @param code the criterion, {@code centre-above-limit} or {@code outliers}
 * @param certain what holds whatever the signals still missing are
 * @param sequential what a sequential test with stated error rates says
 * @param decidedAfterSignals the signal at which the sequential test ended; null while it is open
 * @param text the fact in words
 */
public record ProgressFact(
    String code,
    Certain certain,
    Sequential sequential,
    @Nullable Integer decidedAfterSignals,
    String text) {

  /** What holds whatever follows. */
  public enum Certain {
    /** The criterion is met. */
    MET,
    /** It is not. */
    NOT_MET,
    /** What follows decides. */
    OPEN
  }

  /** What the sequential test says. */
  public enum Sequential {
    /** Beyond the limit. */
    EXCEEDED,
    /** Not beyond it. */
    NOT_EXCEEDED,
    /** More signals are needed to say. */
    OPEN
  }
}
