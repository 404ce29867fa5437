package org.lonefibre.analysis.jitter;

/** Which number is quoted as the jitter. */
public enum JitterStatistic {
  /** Mean consecutive difference (MCD). */
  MEAN_CONSECUTIVE_DIFFERENCE,
  /** Mean sorted-data difference (MSD). */
  MEAN_SORTED_DIFFERENCE
}
