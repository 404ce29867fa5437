package org.lonefibre.signal.recording;

/** How much a finding matters to the result. */
public enum Severity {
  /** Worth knowing; changes nothing. */
  NOTE,
  /** The result stands but must be read with it. */
  CAUTION,
  /** Something was left out because of it. */
  EXCLUSION
}
