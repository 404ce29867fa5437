package org.lonefibre.analysis.study;

/** Whether a pair or end-plate enters the statistics. */
public enum PairStatus {
  /** It does. */
  MEASURED,
  /** Numbers are kept, but not in the statistics; the findings say why. */
  EXCLUDED,
  /** There is no number; the findings say why. */
  UNMEASURABLE
}
