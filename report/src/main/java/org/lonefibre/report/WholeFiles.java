package org.lonefibre.report;

import java.io.IOException;
import java.nio.file.AtomicMoveNotSupportedException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.LinkedHashMap;
import java.util.Map;

/**
 * Writes a set of files so that each appears whole or not at all: all contents go to temporary
 * files beside their places first; only when every one is complete are they moved.
 */
final class WholeFiles {

  private WholeFiles() {}

  static void write(Path directory, Map<String, byte[]> contents) throws IOException {
    Files.createDirectories(directory);
    Map<Path, Path> waiting = new LinkedHashMap<>();
    try {
      for (Map.Entry<String, byte[]> file : contents.entrySet()) {
        Path temporary =
            directory.resolve("." + file.getKey() + "." + ProcessHandle.current().pid() + ".part");
        waiting.put(temporary, directory.resolve(file.getKey()));
        Files.write(temporary, file.getValue());
      }
      for (Map.Entry<Path, Path> file : waiting.entrySet()) {
        move(file.getKey(), file.getValue());
      }
    } finally {
      for (Path temporary : waiting.keySet()) {
        Files.deleteIfExists(temporary);
      }
    }
  }

  private static void move(Path from, Path to) throws IOException {
    try {
      Files.move(from, to, StandardCopyOption.ATOMIC_MOVE, StandardCopyOption.REPLACE_EXISTING);
    } catch (AtomicMoveNotSupportedException e) {
      Files.move(from, to, StandardCopyOption.REPLACE_EXISTING);
    }
  }
}
