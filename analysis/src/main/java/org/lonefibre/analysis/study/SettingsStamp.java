package org.lonefibre.analysis.study;

import java.util.List;

/**
 * The settings that made a result.
 *
 * @param version version of the set of settings
 * @param hash SHA-256 of all settings in canonical order, hexadecimal
 * @param entries every setting in force, with its source
 */
public record SettingsStamp(String version, String hash, List<Entry> entries) {

  /**
   * One setting.
   *
   * @param name dotted name
   * @param value value as text
   * @param source literature, "from memory", "common practice, no source" or "engineering choice"
   */
  public record Entry(String name, String value, String source) {}

  /** Copies the entries. */
  public SettingsStamp {
    entries = List.copyOf(entries);
  }
}
