package org.lonefibre.analysis.reference;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;

/**
 * Muscle keys, and the short names people type.
 *
 * <p>Thread rule: immutable, safe to share.
 */
public final class MuscleNames {

  private final Map<String, String> keysByName;
  private final List<String> keys;

  private MuscleNames(Map<String, String> keysByName, List<String> keys) {
    this.keysByName = keysByName;
    this.keys = keys;
  }

  /** The names carried with the program. */
  public static MuscleNames load() {
    Map<String, String> byName = new LinkedHashMap<>();
    List<String> keys =
        ResourceTable.rows("muscles.csv").stream().map(r -> r.getField("muscle_key")).toList();
    for (var row : ResourceTable.rows("muscles.csv")) {
      String key = row.getField("muscle_key");
      byName.put(folded(key), key);
      for (String alias : row.getField("aliases").split(";", -1)) {
        if (!alias.isBlank()) {
          byName.put(folded(alias), key);
        }
      }
    }
    return new MuscleNames(byName, keys);
  }

  /** The keys, in the order of the table. */
  public List<String> listKeys() {
    return keys;
  }

  /** The key of a key or short name; case, hyphens and underscores do not matter. */
  public Optional<String> findKey(String name) {
    return Optional.ofNullable(keysByName.get(folded(name)));
  }

  private static String folded(String name) {
    return name.strip().toLowerCase(Locale.ROOT).replaceAll("[\\s_-]+", " ");
  }
}
