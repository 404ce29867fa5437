package org.lonefibre.app.terminal;

import java.io.IOException;
import java.nio.file.AtomicMoveNotSupportedException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;

/** Writes a file so that it appears whole or not at all. */
public final class WholeFile {

  private WholeFile() {}

  /**
   * Writes beside the place, then moves. A file that exists is replaced.
   *
   * @throws IOException if it cannot be written; nothing is left behind then
   */
  public static void write(Path file, byte[] content) throws IOException {
    Path temporary =
        file.resolveSibling("." + file.getFileName() + "." + ProcessHandle.current().pid());
    try {
      Files.write(temporary, content);
      try {
        Files.move(
            temporary, file, StandardCopyOption.ATOMIC_MOVE, StandardCopyOption.REPLACE_EXISTING);
      } catch (AtomicMoveNotSupportedException e) {
        Files.move(temporary, file, StandardCopyOption.REPLACE_EXISTING);
      }
    } finally {
      Files.deleteIfExists(temporary);
    }
  }
}
