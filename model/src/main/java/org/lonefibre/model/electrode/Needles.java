package org.lonefibre.model.electrode;

import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Properties;
import java.util.TreeMap;

/**
 * The built-in needles, and any other from keys and values.
 *
 * <p>Built-in needles are files: lines of {@code key: value}, which YAML and {@link Properties}
 * read alike. Their {@code source.KEY} says where each number comes from.
 *
 * <p>Thread rule: no state.
 */
public final class Needles {

  private static final String SOURCE = "source";

  private Needles() {}

  /** Names of the built-in needles. */
  public static List<String> listNames() {
    return List.of("single-fibre", "concentric-small", "concentric-standard", "monopolar");
  }

  /**
   * A built-in needle.
   *
   * @throws IllegalArgumentException if there is none of that name
   */
  public static Needle builtIn(String name) {
    if (!listNames().contains(name)) {
      throw new NeedleFault("needle", name, "one of " + String.join(", ", listNames()));
    }
    return fromFields(builtInFields(name));
  }

  /** Keys and values of a built-in needle, as they stand in its file. */
  public static Map<String, String> builtInFields(String name) {
    Properties properties = new Properties();
    try (InputStream file = Needles.class.getResourceAsStream(name + ".yaml")) {
      if (file == null) {
        throw new NeedleFault("needle", name, "one of " + String.join(", ", listNames()));
      }
      properties.load(new InputStreamReader(file, StandardCharsets.UTF_8));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    Map<String, String> fields = new TreeMap<>();
    properties.stringPropertyNames().forEach(key -> fields.put(key, properties.getProperty(key)));
    return fields;
  }

  /**
   * A needle from keys and values: {@code name kind shaftDiameterMm shaftLengthMm reference source}
   * and, by kind, {@code coreDiameterUm portDiameterUm coreFromTipMm} (side-port), {@code
   * coreDiameterUm bevelDeg insulationThicknessUm} (bevel), {@code tipConeDeg exposedLengthMm}
   * (monopolar); {@code source.KEY} beside any of them.
   *
   * @throws NeedleFault if a key is missing, unknown or not allowed here, or a value out of range
   */
  public static Needle fromFields(Map<String, String> fields) {
    Map<String, String> left = new LinkedHashMap<>(fields);
    Map<String, String> sources = new LinkedHashMap<>();
    fields.forEach(
        (key, value) -> {
          if (key.equals(SOURCE) || key.startsWith(SOURCE + ".")) {
            sources.put(key.equals(SOURCE) ? SOURCE : key.substring(SOURCE.length() + 1), value);
            left.remove(key);
          }
        });
    String name = text(left, "name");
    String kind = text(left, "kind");
    double diameterMm = number(left, "shaftDiameterMm");
    double lengthMm = number(left, "shaftLengthMm");
    Tip tip =
        switch (kind) {
          case "side-port" ->
              new Tip.SidePort(
                  number(left, "coreDiameterUm"),
                  number(left, "portDiameterUm"),
                  number(left, "coreFromTipMm"));
          case "bevel" ->
              new Tip.Bevel(
                  number(left, "coreDiameterUm"),
                  number(left, "insulationThicknessUm"),
                  number(left, "bevelDeg"));
          case "monopolar" ->
              new Tip.Cone(number(left, "tipConeDeg"), number(left, "exposedLengthMm"));
          default -> throw new NeedleFault("kind", kind, "side-port, bevel or monopolar");
        };
    String word = text(left, "reference");
    Reference reference =
        switch (word) {
          case "cannula" -> Reference.CANNULA;
          case "remote" -> Reference.REMOTE;
          default -> throw new NeedleFault("reference", word, "cannula or remote");
        };
    for (Map.Entry<String, String> unknown : left.entrySet()) {
      throw new NeedleFault(
          unknown.getKey(), unknown.getValue(), "left out: a " + kind + " needle has no such key");
    }
    return new Needle(name, diameterMm, lengthMm, tip, reference, sources);
  }

  private static String text(Map<String, String> left, String key) {
    String value = left.remove(key);
    if (value == null || value.isBlank()) {
      throw new NeedleFault(key, "nothing", "given");
    }
    return value.strip();
  }

  private static double number(Map<String, String> left, String key) {
    String value = text(left, key);
    try {
      return Double.parseDouble(value);
    } catch (NumberFormatException e) {
      throw new NeedleFault(key, value, "a number alone, with a decimal point");
    }
  }
}
