package org.lonefibre.app.declaration;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.lonefibre.app.terminal.InputFault;
import org.lonefibre.app.terminal.Nearest;

/**
 * Reads a settings file: YAML with the names that {@code --print-settings} prints, either dotted or
 * as keys within keys. What that command prints is itself a settings file.
 */
public final class SettingsFile {

  private SettingsFile() {}

  /**
   * Reads a file.
   *
   * @throws InputFault if a name is not known or a value outside its range
   * @throws IOException if it cannot be read
   */
  public static SettingsChanges read(Path path) throws IOException {
    String file = String.valueOf(path.getFileName());
    List<String> known = SettingsInForce.listNames();
    SettingsChanges changes = SettingsChanges.NONE;
    for (Map.Entry<String, YamlNode.Scalar> entry : YamlReader.read(path).flat().entrySet()) {
      String name = entry.getKey();
      String place = name + ", line " + entry.getValue().line();
      if (!known.contains(name)) {
        throw new InputFault(
            file,
            place,
            "the name of a setting",
            name,
            Nearest.find(name, known)
                .map(near -> "perhaps " + near + " is meant")
                .orElse("analyse --print-settings lists all names"));
      }
      changes = changes.with(name, entry.getValue().text(), "set in " + file);
      try {
        SettingsInForce.parse(Map.of(name, entry.getValue().text()));
      } catch (IllegalArgumentException e) {
        throw new InputFault(
            file,
            place,
            "a value of the right kind",
            String.valueOf(e.getMessage()),
            "correct the value");
      }
    }
    return changes;
  }
}
