package org.lonefibre.report.document;

/**
 * One thing that can be claimed.
 *
 * @param weight how it is to be taken
 * @param lead a few words that carry it
 * @param text the sentence with its numbers
 */
public record Statement(Weight weight, String lead, String text) {

  /** How a statement is to be taken. */
  public enum Weight {
    /** What was found. */
    FACT,
    /** What the rest must be read with. */
    CAUTION
  }
}
