package org.lonefibre.app.declaration;

import java.util.LinkedHashMap;
import java.util.Map;

/**
 * Settings a person wants otherwise, by dotted name.
 *
 * @param values values as written
 * @param sources who wants each: a file or an option
 */
public record SettingsChanges(Map<String, String> values, Map<String, String> sources) {

  /** Nothing is changed. */
  public static final SettingsChanges NONE = new SettingsChanges(Map.of(), Map.of());

  /** Copies the maps. */
  public SettingsChanges {
    values = Map.copyOf(values);
    sources = Map.copyOf(sources);
  }

  /** One more change, which replaces an earlier one of the same name. */
  public SettingsChanges with(String name, String value, String source) {
    Map<String, String> newValues = new LinkedHashMap<>(values);
    Map<String, String> newSources = new LinkedHashMap<>(sources);
    newValues.put(name, value);
    newSources.put(name, source);
    return new SettingsChanges(newValues, newSources);
  }
}
