package org.lonefibre.analysis.controls;

/**
 * One limit with its 90 % bootstrap interval.
 *
 * @param what {@code mean}, {@code median} or {@code single signal}
 * @param method how it was taken
 * @param subjects subjects it rests on
 * @param valueUs the limit
 * @param lowUs lower end of the interval
 * @param highUs upper end
 * @param standing whether there were enough subjects
 */
public record OwnLimit(
    String what,
    ControlMethod method,
    int subjects,
    double valueUs,
    double lowUs,
    double highUs,
    Standing standing) {

  /** Whether there were enough subjects for the method. */
  public enum Standing {
    /** There were. */
    ENOUGH,
    /** There were not: the number is shown, and is no limit. */
    TOO_FEW
  }
}
