package org.lonefibre.formats.wfdb;

import java.nio.file.Path;
import java.util.Objects;
import org.lonefibre.signal.recording.RecordingFormatException;

/** Asks the only door to files what it makes of a name. */
public final class FolderProbe {

  private FolderProbe() {}

  /**
   * Holds that a name gives a file beside the header or is refused.
   *
   * @throws AssertionError if it leads elsewhere
   */
  public static void check(Path header, String name) {
    Path folder = Objects.requireNonNull(header.toAbsolutePath().normalize().getParent());
    try {
      Path file = new WfdbFolder(header).sibling("r.hea", "line 1", name);
      if (!folder.equals(file.toAbsolutePath().normalize().getParent())) {
        throw new AssertionError("the name \"" + name + "\" leads out of the folder");
      }
    } catch (RecordingFormatException e) {
      if (!e.place().equals("line 1")) {
        throw new AssertionError("a refusal without its place: " + e.getMessage(), e);
      }
    }
  }
}
