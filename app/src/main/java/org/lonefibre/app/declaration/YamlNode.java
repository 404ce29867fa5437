package org.lonefibre.app.declaration;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** A node of a YAML file that remembers its line. */
sealed interface YamlNode {

  /** Line of the file, from 1. */
  int line();

  /** What it is, in words. */
  String kind();

  /** A value as written; empty for a key without value. */
  record Scalar(int line, String text) implements YamlNode {
    @Override
    public String kind() {
      return text.isEmpty() ? "nothing" : text;
    }
  }

  /** Several nodes in order. */
  record Sequence(int line, List<YamlNode> items) implements YamlNode {
    public Sequence {
      items = List.copyOf(items);
    }

    @Override
    public String kind() {
      return "a list";
    }
  }

  /** Nodes by key, with the line of each key. */
  record Mapping(int line, Map<String, YamlNode> entries) implements YamlNode {
    public Mapping {
      entries = new LinkedHashMap<>(entries);
    }

    @Override
    public String kind() {
      return "keys with values";
    }
  }
}
