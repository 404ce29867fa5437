package org.lonefibre.app.declaration;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.lonefibre.app.terminal.InputFault;
import org.lonefibre.app.terminal.Nearest;

/**
 * Keys and values at one place of a YAML file. Every fault names the file, the key, the line, what
 * was expected and what was found.
 */
final class YamlMap {

  private static final int LONGEST = 2000;

  private final String file;
  private final String path;
  private final YamlNode.Mapping mapping;

  YamlMap(String file, String path, YamlNode.Mapping mapping) {
    this.file = file;
    this.path = path;
    this.mapping = mapping;
  }

  /** Refuses keys that are not known here. */
  YamlMap allow(String... known) throws InputFault {
    List<String> keys = Arrays.asList(known);
    for (Map.Entry<String, YamlNode> entry : mapping.entries().entrySet()) {
      if (!keys.contains(entry.getKey())) {
        throw new InputFault(
            file,
            place(entry.getKey(), entry.getValue()),
            "a known key",
            entry.getKey(),
            Nearest.advice(entry.getKey(), keys));
      }
    }
    return this;
  }

  /** A text; null if there is none. */
  @Nullable String text(String key) throws InputFault {
    YamlNode node = mapping.entries().get(key);
    if (node == null) {
      return null;
    }
    if (!(node instanceof YamlNode.Scalar scalar)) {
      throw fault(key, "a text", node.kind(), "write " + key + ": TEXT");
    }
    if (scalar.text().length() > LONGEST) {
      throw fault(key, "at most " + LONGEST + " letters", "more", "shorten it");
    }
    return scalar.text().isBlank() ? null : scalar.text().strip();
  }

  /** A number within a range; null if there is none. */
  @Nullable Double number(String key, double low, double high, String unit) throws InputFault {
    String text = text(key);
    if (text == null) {
      return null;
    }
    String range = "a number of " + plain(low) + " to " + plain(high) + " " + unit;
    double value;
    try {
      value = Double.parseDouble(text);
    } catch (NumberFormatException e) {
      throw fault(key, range, text, "write the number alone, with a decimal point");
    }
    if (!(value >= low && value <= high)) {
      throw fault(key, range, text, "check the value and its unit");
    }
    return value;
  }

  /** One of some words; null if there is none. */
  @Nullable String word(String key, List<String> known) throws InputFault {
    String text = text(key);
    if (text == null || known.contains(text)) {
      return text;
    }
    throw fault(key, "one of " + String.join(", ", known), text, Nearest.advice(text, known));
  }

  /** The keys and values under a key; none if the key is absent. */
  YamlMap map(String key) throws InputFault {
    YamlNode node = mapping.entries().get(key);
    if (node == null || isEmpty(node)) {
      return new YamlMap(file, join(key), new YamlNode.Mapping(mapping.line(), Map.of()));
    }
    if (node instanceof YamlNode.Mapping inner) {
      return new YamlMap(file, join(key), inner);
    }
    throw fault(key, "keys with values", node.kind(), "write KEY: VALUE, indented, under " + key);
  }

  /** The list of keys and values under a key, at least one. */
  List<YamlMap> maps(String key) throws InputFault {
    YamlNode node = mapping.entries().get(key);
    if (!(node instanceof YamlNode.Sequence sequence) || sequence.items().isEmpty()) {
      throw fault(
          key,
          "a list",
          node == null
              ? "nothing"
              : node instanceof YamlNode.Sequence ? "an empty list" : node.kind(),
          "write lines that begin with a hyphen under " + key);
    }
    List<YamlMap> maps = new ArrayList<>();
    for (YamlNode item : sequence.items()) {
      String itemPath = join(key) + "[" + (maps.size() + 1) + "]";
      if (!(item instanceof YamlNode.Mapping inner)) {
        throw new InputFault(
            file,
            itemPath + ", line " + item.line(),
            "keys with values",
            item.kind(),
            "write - KEY: VALUE");
      }
      maps.add(new YamlMap(file, itemPath, inner));
    }
    return maps;
  }

  /** All values below this place by their dotted names, with their lines. */
  Map<String, YamlNode.Scalar> flat() throws InputFault {
    Map<String, YamlNode.Scalar> flat = new LinkedHashMap<>();
    flatten("", mapping, flat);
    return flat;
  }

  private void flatten(String prefix, YamlNode.Mapping from, Map<String, YamlNode.Scalar> into)
      throws InputFault {
    for (Map.Entry<String, YamlNode> entry : from.entries().entrySet()) {
      String name = prefix + entry.getKey();
      if (entry.getValue() instanceof YamlNode.Mapping inner) {
        flatten(name + ".", inner, into);
      } else if (entry.getValue() instanceof YamlNode.Scalar scalar) {
        if (into.put(name, scalar) != null) {
          throw new InputFault(
              file, name + ", line " + scalar.line(), "each key once", "it again", "keep one");
        }
      } else {
        throw new InputFault(
            file,
            name + ", line " + entry.getValue().line(),
            "one value",
            "a list",
            "write NAME: VALUE");
      }
    }
  }

  /** Whether the key stands here. */
  boolean has(String key) {
    return mapping.entries().containsKey(key);
  }

  /** A fault at a key. */
  InputFault fault(String key, String expected, String found, String remedy) {
    YamlNode node = mapping.entries().get(key);
    return new InputFault(file, place(key, node == null ? mapping : node), expected, found, remedy);
  }

  private String place(String key, YamlNode node) {
    return join(key) + ", line " + node.line();
  }

  private String join(String key) {
    return path.isEmpty() ? key : path + "." + key;
  }

  private static boolean isEmpty(YamlNode node) {
    return node instanceof YamlNode.Scalar scalar && scalar.text().isEmpty();
  }

  private static String plain(double value) {
    return value == Math.rint(value) && Math.abs(value) < 1e9
        ? Long.toString((long) value)
        : Double.toString(value);
  }
}
