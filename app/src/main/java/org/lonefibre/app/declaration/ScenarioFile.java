package org.lonefibre.app.declaration;

import java.io.IOException;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.lonefibre.app.terminal.InputFault;
import org.lonefibre.app.terminal.Nearest;

/**
 * Reads a scenario to be simulated: YAML with the names of the scenario's values, either dotted or
 * as keys within keys, such as {@code amplifier.noiseUv}. What is not named keeps its default.
 */
public final class ScenarioFile {

  private ScenarioFile() {}

  /**
   * Reads a file.
   *
   * @param defaults the scenario to change
   * @throws InputFault if a name is not known or a value not allowed
   * @throws IOException if it cannot be read
   */
  public static <R extends Record> R read(Path path, R defaults) throws IOException {
    String file = String.valueOf(path.getFileName());
    List<String> known = RecordTree.listNames(defaults);
    Map<String, String> values = new LinkedHashMap<>();
    Map<String, Integer> lines = new LinkedHashMap<>();
    for (Map.Entry<String, YamlNode.Scalar> entry : YamlReader.read(path).flat().entrySet()) {
      if (!known.contains(entry.getKey())) {
        throw new InputFault(
            file,
            entry.getKey() + ", line " + entry.getValue().line(),
            "the name of a value of the scenario",
            entry.getKey(),
            Nearest.advice(entry.getKey(), known));
      }
      values.put(entry.getKey(), entry.getValue().text());
      lines.put(entry.getKey(), entry.getValue().line());
    }
    try {
      return RecordTree.with(defaults, values);
    } catch (IllegalArgumentException e) {
      throw new InputFault(
          file,
          place(defaults, values, lines, String.valueOf(e.getMessage())),
          "values within their ranges",
          String.valueOf(e.getMessage()),
          "correct it, and check its unit");
    }
  }

  /** The key that alone is refused in the same words; nothing if several are at fault together. */
  private static String place(
      Record defaults, Map<String, String> values, Map<String, Integer> lines, String message) {
    for (Map.Entry<String, String> entry : values.entrySet()) {
      try {
        RecordTree.with(defaults, Map.of(entry.getKey(), entry.getValue()));
      } catch (IllegalArgumentException e) {
        if (message.equals(e.getMessage())) {
          return entry.getKey() + ", line " + lines.get(entry.getKey());
        }
      }
    }
    return "";
  }
}
