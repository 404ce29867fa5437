package org.lonefibre.report.figure;

/**
 * The inks of all figures: greys and one dark blue, told apart by lightness in print. On white,
 * text reaches a contrast of 7:1 and marks 3:1 (WCAG 2.2, 1.4.3 and 1.4.11, computed).
 */
final class Ink {

  /** Text and axes. */
  static final String TEXT = "#1c1c1c";

  /** Secondary text. */
  static final String QUIET = "#505050";

  /** Marks of values. */
  static final String MARK = "#0b3c5d";

  /** Single sweeps. */
  static final String SWEEP = "#6b6b6b";

  /** Rules and connecting lines. */
  static final String RULE = "#8c8c8c";

  /** Faint guides that carry nothing. */
  static final String GUIDE = "#dcdcdc";

  /** Band of a standard deviation. */
  static final String BAND = "#cfd8de";

  private Ink() {}
}
