package org.lonefibre.formats.reader;

import java.io.IOException;
import java.nio.file.Path;
import org.lonefibre.signal.recording.Recording;

/**
 * Reads one family of formats.
 *
 * <ul>
 *   <li>A file is recognised by its first bytes; its name decides nothing.
 *   <li>Thread rule: safe, keeps nothing between calls.
 * </ul>
 */
public interface RecordingReader {

  /** How many bytes of the beginning {@link #recognises} wants to see. */
  int HEAD_BYTES = 1 << 16;

  /** Whether a file that begins like this is of this family. */
  boolean recognises(byte[] head);

  /**
   * Opens a file of this family.
   *
   * @throws org.lonefibre.signal.recording.RecordingFormatException if it cannot be read, with
   *     file, place, what was expected and what was found
   */
  Recording open(Path file, ReadOptions options) throws IOException;
}
