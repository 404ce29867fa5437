package org.lonefibre.report.document;

import java.util.Locale;

/** Languages that a report can be written in. Numbers and units are the same in all. */
public enum Language {
  /** British English. */
  ENGLISH("en-GB", "en"),
  /** German. */
  GERMAN("de", "de");

  private final String tag;
  private final String file;

  Language(String tag, String file) {
    this.tag = tag;
    this.file = file;
  }

  /** Its tag by BCP 47. */
  public String tag() {
    return tag;
  }

  /** Its short name, as it is typed. */
  public String shortName() {
    return file;
  }

  /**
   * The language of a short name, {@code en} or {@code de}.
   *
   * @throws IllegalArgumentException if there is none
   */
  public static Language named(String name) {
    for (Language language : values()) {
      if (language.file.equals(name.strip().toLowerCase(Locale.ROOT))) {
        return language;
      }
    }
    throw new IllegalArgumentException("expected en or de, found " + name);
  }
}
