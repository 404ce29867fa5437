package org.lonefibre.report.document;

/**
 * A named fact.
 *
 * @param name what it is
 * @param value its value in words, with unit
 * @param remark where it comes from or how to read it; empty if there is nothing to say
 */
public record Fact(String name, String value, String remark) {

  /** A fact without remark. */
  public static Fact of(String name, String value) {
    return new Fact(name, value, "");
  }
}
