package org.lonefibre.store.recordings;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.security.DigestOutputStream;
import java.security.MessageDigest;
import java.util.HexFormat;
import java.util.Locale;
import java.util.Optional;
import java.util.UUID;
import org.lonefibre.store.audit.Hash;
import org.lonefibre.store.audit.OwnerOnly;
import org.lonefibre.store.migration.StoreFault;

/**
 * Recordings as unchanged files, named by their SHA-256; no name from outside becomes a path.
 *
 * <ul>
 *   <li>A file appears whole or not at all, and is on the disk before it is called kept.
 *   <li>The same bytes are kept once.
 *   <li>Thread rule: safe.
 * </ul>
 */
public final class RecordingFiles {

  private final Path folder;

  /** Those in a folder, which is made if there is none. */
  public RecordingFiles(Path folder) throws IOException {
    this.folder = folder;
    OwnerOnly.folder(folder);
  }

  /**
   * Keeps a file.
   *
   * @param fileName name it had, of which only a plain ending is kept
   * @param mostBytes largest size taken
   * @throws StoreFault if it is larger
   */
  public KeptRecording keep(InputStream content, String fileName, long mostBytes)
      throws IOException {
    Path fresh = folder.resolve("incoming-" + UUID.randomUUID());
    try {
      MessageDigest digest = Hash.digest();
      long size = 0;
      try (OutputStream out = new DigestOutputStream(Files.newOutputStream(fresh), digest)) {
        byte[] block = new byte[1 << 16];
        for (int length = content.read(block); length >= 0; length = content.read(block)) {
          size += length;
          if (size > mostBytes) {
            throw new StoreFault(
                "recording", "at most " + mostBytes + " bytes", "more", "divide the recording");
          }
          out.write(block, 0, length);
        }
      }
      String sha256 = HexFormat.of().formatHex(digest.digest());
      KeptRecording kept = new KeptRecording(sha256, extension(fileName), size);
      Path place = path(kept);
      if (!Files.exists(place)) {
        OwnerOnly.file(fresh);
        sync(fresh);
        Files.move(fresh, place, StandardCopyOption.ATOMIC_MOVE);
      }
      return kept;
    } finally {
      Files.deleteIfExists(fresh);
    }
  }

  /** The recording of a hash whose file had a name of the same ending. */
  public Optional<KeptRecording> find(String sha256, String fileName) {
    if (!sha256.matches("[0-9a-f]{64}")) {
      return Optional.empty();
    }
    Path file = folder.resolve(sha256 + extension(fileName));
    try {
      return Files.exists(file)
          ? Optional.of(new KeptRecording(sha256, extension(fileName), Files.size(file)))
          : Optional.empty();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** The file of a recording. */
  public Path path(KeptRecording recording) {
    return folder.resolve(recording.sha256() + recording.extension());
  }

  /** Takes away what an interrupted copy left behind. */
  public void sweep() throws IOException {
    try (var files = Files.newDirectoryStream(folder, "incoming-*")) {
      for (Path file : files) {
        Files.deleteIfExists(file);
      }
    }
  }

  /** The ending of a name, if it is a short plain word: {@code .edf}; else nothing. */
  static String extension(String fileName) {
    int dot = fileName.lastIndexOf('.');
    String ending = dot < 0 ? "" : fileName.substring(dot).toLowerCase(Locale.ROOT);
    return ending.matches("\\.[a-z0-9]{1,5}") ? ending : "";
  }

  private static void sync(Path file) throws IOException {
    try (FileChannel channel = FileChannel.open(file, StandardOpenOption.WRITE)) {
      channel.force(true);
    }
  }
}
