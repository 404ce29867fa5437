package org.lonefibre.app.declaration;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.Map;
import org.lonefibre.app.terminal.InputFault;
import org.lonefibre.app.terminal.Nearest;
import org.lonefibre.model.electrode.Needle;
import org.lonefibre.model.electrode.NeedleFault;
import org.lonefibre.model.electrode.Needles;

/** Finds a needle by its name, or reads it from a file. */
public final class NeedleFile {

  private NeedleFile() {}

  /**
   * The needle that a name or the path of a file stands for.
   *
   * @throws InputFault if there is neither, or the file describes none that can be made
   * @throws IOException if the file cannot be read
   */
  public static Needle find(String nameOrFile) throws IOException {
    if (Needles.listNames().contains(nameOrFile)) {
      return Needles.builtIn(nameOrFile);
    }
    Path file = path(nameOrFile);
    if (!Files.exists(file)) {
      throw new InputFault(
          "needle",
          "",
          "a needle file, or one of " + String.join(", ", Needles.listNames()),
          nameOrFile,
          Nearest.advice(nameOrFile, Needles.listNames()));
    }
    return read(file);
  }

  /**
   * Reads a needle file.
   *
   * @throws InputFault if it describes no needle that can be made; key, line, value and what is
   *     allowed are named
   * @throws IOException if it cannot be read
   */
  public static Needle read(Path file) throws IOException {
    String name = String.valueOf(file.getFileName());
    Map<String, YamlNode.Scalar> nodes = YamlReader.read(file).flat();
    Map<String, String> fields = new LinkedHashMap<>();
    nodes.forEach((key, node) -> fields.put(key, node.text()));
    try {
      return Needles.fromFields(fields);
    } catch (NeedleFault fault) {
      YamlNode.Scalar node = nodes.get(fault.key());
      throw new InputFault(
          name,
          node == null ? fault.key() : fault.key() + ", line " + node.line(),
          fault.expected(),
          fault.found(),
          node == null ? "add the key" : "check the value and its unit");
    }
  }

  private static Path path(String text) throws InputFault {
    try {
      return Path.of(text);
    } catch (InvalidPathException e) {
      throw new InputFault(
          "needle", "", "a needle file or name", text, "give one of the built-in names");
    }
  }
}
