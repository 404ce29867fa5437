package org.lonefibre.signal.recording;

/**
 * A fact about what was read or measured that the reader of the result should know.
 *
 * @param code what it is
 * @param severity how much it matters
 * @param text one or two plain sentences with numbers and units
 * @param evidence where it can be seen
 */
public record Finding(FindingCode code, Severity severity, String text, Evidence evidence) {

  /** A finding worth knowing. */
  public static Finding note(FindingCode code, String text, Evidence evidence) {
    return new Finding(code, Severity.NOTE, text, evidence);
  }

  /** A finding the result must be read with. */
  public static Finding caution(FindingCode code, String text, Evidence evidence) {
    return new Finding(code, Severity.CAUTION, text, evidence);
  }

  /** A finding that left something out. */
  public static Finding exclusion(FindingCode code, String text, Evidence evidence) {
    return new Finding(code, Severity.EXCLUSION, text, evidence);
  }
}
