package org.lonefibre.report.document;

/**
 * A named fact.
 *
 * @param name what it is
 * @param value its value in words, with unit
 * @param quoted whether the value is a name or a reference in English, whatever the language
 */
public record Fact(String name, String value, boolean quoted) {

  /** A fact in the language of the report. */
  public static Fact of(String name, String value) {
    return new Fact(name, value, false);
  }

  /** A fact whose value is quoted as its source wrote it, in English. */
  public static Fact quoted(String name, String value) {
    return new Fact(name, value, true);
  }
}
