package org.lonefibre.formats.wfdb;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import org.lonefibre.formats.reader.ReadOptions;
import org.lonefibre.formats.reader.RecordingReader;
import org.lonefibre.signal.recording.Recording;

/**
 * Reads WFDB records by their header, in one part or several, with the annotations beside it.
 *
 * <ul>
 *   <li>The header names the files of samples; they lie in its folder.
 *   <li>Opening goes once through all samples: it finds missing ones and checks the sums.
 *   <li>Thread rule: safe, keeps nothing between calls.
 * </ul>
 */
public final class WfdbReader implements RecordingReader {

  @Override
  public boolean recognises(byte[] head) {
    return WfdbHeader.isHeader(head);
  }

  @Override
  public Recording open(Path file, ReadOptions options) throws IOException {
    return new WfdbRecording(WfdbHeader.read(file), new WfdbFolder(file), options);
  }

  /** The header beside a file that holds the samples of a record of the same name, if any. */
  public static Optional<Path> findHeader(Path samples) throws IOException {
    String name = String.valueOf(samples.getFileName());
    int dot = name.lastIndexOf('.');
    Path header = samples.resolveSibling((dot > 0 ? name.substring(0, dot) : name) + ".hea");
    if (!Files.isRegularFile(header) || !Files.isReadable(header)) {
      return Optional.empty();
    }
    try (InputStream in = Files.newInputStream(header)) {
      boolean isHeader = WfdbHeader.isHeader(in.readNBytes(HEAD_BYTES));
      return isHeader ? Optional.of(header) : Optional.empty();
    }
  }
}
