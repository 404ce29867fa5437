package org.lonefibre.formats.wfdb;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import org.lonefibre.signal.recording.RecordingFormatException;

/** The folder a header lies in: a header may name files in it, and none elsewhere. */
final class WfdbFolder {

  private final Path folder;
  private final Path header;

  WfdbFolder(Path header) {
    Path whole = header.toAbsolutePath().normalize();
    Path parent = whole.getParent();
    this.header = whole;
    this.folder = parent == null ? whole : parent;
  }

  /**
   * The file that a header names.
   *
   * @param from name of the header that names it
   * @param place where it does so
   * @throws RecordingFormatException if the name leads out of the folder, is the header itself, or
   *     nothing readable is there
   */
  Path file(String from, String place, String name) throws IOException {
    Path file = sibling(from, place, name);
    if (!Files.isRegularFile(file)) {
      throw fault(from, place, "a file beside the header", "nothing at \"" + name + "\"");
    }
    if (!Files.isReadable(file)) {
      throw fault(from, place, "a file that can be read", "\"" + name + "\", which cannot");
    }
    if (Files.isSameFile(file, header)) {
      throw fault(from, place, "another file than the header", "the header itself");
    }
    return file;
  }

  /** The file of a name in the folder, whether it is there or not. */
  Path sibling(String from, String place, String name) throws RecordingFormatException {
    boolean plain =
        !name.isEmpty()
            && !name.equals(".")
            && !name.equals("..")
            && !name.equals("-")
            && name.length() <= 255
            && name.chars().noneMatch(c -> c < ' ' || c == '/' || c == '\\' || c == ':');
    try {
      Path file = plain ? folder.resolve(name) : folder;
      if (plain && folder.equals(file.normalize().getParent())) {
        return file;
      }
    } catch (InvalidPathException e) {
      throw fault(from, place, "the name of a file", "\"" + name + "\"");
    }
    throw fault(from, place, "the name of a file in the header's own folder", "\"" + name + "\"");
  }

  private static RecordingFormatException fault(
      String from, String place, String expected, String found) {
    return new RecordingFormatException(
        from, place, expected, found, "put the files of the record into one folder");
  }
}
