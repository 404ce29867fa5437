package org.lonefibre.app.declaration;

import com.fasterxml.jackson.core.JsonLocation;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.JsonToken;
import com.fasterxml.jackson.dataformat.yaml.YAMLFactory;
import com.fasterxml.jackson.dataformat.yaml.YAMLParser;
import java.io.IOException;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.lonefibre.app.terminal.InputFault;

/**
 * Reads a YAML file into nodes. Aliases and several documents in one file are refused: nothing here
 * needs them, and they can make a small file grow.
 */
final class YamlReader {

  private static final long LARGEST_BYTES = 1 << 20;
  private static final int DEEPEST = 20;

  private final String file;
  private final YAMLParser parser;

  private YamlReader(String file, YAMLParser parser) {
    this.file = file;
    this.parser = parser;
  }

  /** The keys and values of a file. */
  static YamlMap read(Path path) throws IOException {
    String file = String.valueOf(path.getFileName());
    if (Files.isDirectory(path)) {
      throw new InputFault(file, "", "a YAML file", "a folder", "name the file in it");
    }
    if (Files.size(path) > LARGEST_BYTES) {
      throw new InputFault(
          file, "", "a YAML file of at most 1 MB", Files.size(path) + " bytes", "check the name");
    }
    String text = text(file, Files.readAllBytes(path));
    try (YAMLParser parser = new YAMLFactory().createParser(text)) {
      YamlReader reader = new YamlReader(file, parser);
      if (parser.nextToken() == null) {
        throw new InputFault(file, "", "keys with values", "an empty file", "write them down");
      }
      YamlNode root = reader.node(0);
      if (parser.nextToken() != null) {
        throw reader.fault("one document", "a second one", "keep only the first");
      }
      if (root instanceof YamlNode.Mapping mapping) {
        return new YamlMap(file, "", mapping);
      }
      throw new InputFault(
          file, "line " + root.line(), "keys with values", root.kind(), "write KEY: VALUE");
    } catch (JsonProcessingException e) {
      JsonLocation at = e.getLocation();
      throw new InputFault(
          file,
          at == null ? "" : "line " + at.getLineNr() + ", column " + at.getColumnNr(),
          "YAML",
          e.getOriginalMessage()
              .lines()
              .filter(line -> !line.startsWith(" "))
              .map(String::strip)
              .collect(Collectors.joining(", ")),
          "correct the line; indentation counts");
    }
  }

  private static String text(String file, byte[] bytes) throws InputFault {
    try {
      String text =
          StandardCharsets.UTF_8.newDecoder().decode(java.nio.ByteBuffer.wrap(bytes)).toString();
      return text.startsWith("\uFEFF") ? text.substring(1) : text;
    } catch (CharacterCodingException e) {
      throw new InputFault(file, "", "text in UTF-8", "other bytes", "save it as UTF-8");
    }
  }

  private YamlNode node(int depth) throws IOException {
    if (depth > DEEPEST) {
      throw fault("at most " + DEEPEST + " levels", "more", "write it flatter");
    }
    JsonToken token = parser.currentToken();
    int line = parser.currentTokenLocation().getLineNr();
    if (token == JsonToken.START_OBJECT) {
      Map<String, YamlNode> entries = new LinkedHashMap<>();
      while (parser.nextToken() == JsonToken.FIELD_NAME) {
        String key = parser.currentName();
        if (entries.containsKey(key)) {
          throw fault("each key once", key + " again", "keep one of them");
        }
        parser.nextToken();
        entries.put(key, node(depth + 1));
      }
      return new YamlNode.Mapping(line, entries);
    }
    if (token == JsonToken.START_ARRAY) {
      List<YamlNode> items = new ArrayList<>();
      while (parser.nextToken() != JsonToken.END_ARRAY) {
        items.add(node(depth + 1));
      }
      return new YamlNode.Sequence(line, items);
    }
    if (parser.isCurrentAlias()) {
      throw fault("a value", "an alias", "write the value itself");
    }
    return new YamlNode.Scalar(line, token == JsonToken.VALUE_NULL ? "" : parser.getText());
  }

  private InputFault fault(String expected, String found, String remedy) {
    return new InputFault(
        file, "line " + parser.currentTokenLocation().getLineNr(), expected, found, remedy);
  }
}
