package org.lonefibre.formats.wfdb;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
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

  /** Headers of a folder that are looked into for the name of a file. */
  private static final int MOST_HEADERS = 1000;

  @Override
  public boolean recognises(byte[] head) {
    return WfdbHeader.isHeader(head);
  }

  @Override
  public Recording open(Path file, ReadOptions options) throws IOException {
    return new WfdbRecording(WfdbHeader.read(file), new WfdbFolder(file), options);
  }

  /**
   * The header beside a file that holds the samples of a record: one of its name, or else one whose
   * lines name it.
   */
  public static Optional<Path> findHeader(Path samples) throws IOException {
    String name = String.valueOf(samples.getFileName());
    int dot = name.lastIndexOf('.');
    Path header = samples.resolveSibling((dot > 0 ? name.substring(0, dot) : name) + ".hea");
    if (isHeader(header)) {
      return Optional.of(header);
    }
    Path folder = samples.toAbsolutePath().getParent();
    if (folder == null) {
      return Optional.empty();
    }
    try (Stream<Path> beside = Files.list(folder)) {
      List<Path> headers =
          beside
              .filter(path -> path.toString().endsWith(".hea"))
              .limit(MOST_HEADERS)
              .sorted()
              .toList();
      for (Path path : headers) {
        if (isHeader(path) && names(path, name)) {
          return Optional.of(path);
        }
      }
    } catch (IOException | UncheckedIOException e) {
      // A folder that cannot be listed has no advice to give.
      return Optional.empty();
    }
    return Optional.empty();
  }

  private static boolean isHeader(Path header) throws IOException {
    return Files.isRegularFile(header)
        && Files.isReadable(header)
        && WfdbHeader.isHeader(head(header));
  }

  private static boolean names(Path header, String samples) throws IOException {
    return new String(head(header), StandardCharsets.ISO_8859_1)
        .lines()
        .anyMatch(line -> line.startsWith(samples + " "));
  }

  private static byte[] head(Path header) throws IOException {
    try (InputStream in = Files.newInputStream(header)) {
      return in.readNBytes(HEAD_BYTES);
    }
  }
}
