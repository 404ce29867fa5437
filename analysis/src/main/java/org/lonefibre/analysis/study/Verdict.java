package org.lonefibre.analysis.study;

/** What the comparison with one limit set found. A fact, never a diagnosis. */
public enum Verdict {
  /** At least one criterion of the limit set is met. */
  LIMIT_EXCEEDED,
  /** No criterion of the limit set is met. */
  NO_LIMIT_EXCEEDED,
  /** Nothing was compared; the findings say why. */
  NOT_COMPARED
}
