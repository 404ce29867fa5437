package org.lonefibre.store.recordings;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.attribute.FileTime;
import java.security.MessageDigest;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.lonefibre.store.audit.Hash;
import org.lonefibre.store.audit.OwnerOnly;

/**
 * What was computed from recordings and would take long to compute again. The folder can be emptied
 * at any time; it is in no backup.
 *
 * <ul>
 *   <li>Each file begins with the SHA-256 of what it is and what it holds; one that does not fit is
 *       as good as none.
 *   <li>No more than a given size is kept; what was used longest ago goes first.
 *   <li>Thread rule: safe.
 * </ul>
 */
public final class DerivedFiles {

  private static final long MOST_BYTES = 1L << 30;
  private static final int HASH_BYTES = 32;
  private static final String INCOMING = "incoming-";

  private final Path folder;
  private final long mostBytes;

  /** Those in a folder, which is made when the first is kept. */
  public DerivedFiles(Path folder) {
    this(folder, MOST_BYTES);
  }

  DerivedFiles(Path folder, long mostBytes) {
    this.folder = folder;
    this.mostBytes = mostBytes;
  }

  /**
   * What was kept under a name.
   *
   * @param name all that it depends on: hash of the recording, settings, version of the program
   */
  public Optional<byte[]> find(String name) {
    Path file = file(name);
    try {
      if (!Files.exists(file)) {
        return Optional.empty();
      }
      byte[] all = Files.readAllBytes(file);
      if (all.length < HASH_BYTES) {
        return Optional.empty();
      }
      byte[] content = Arrays.copyOfRange(all, HASH_BYTES, all.length);
      if (!MessageDigest.isEqual(Arrays.copyOf(all, HASH_BYTES), hash(name, content))) {
        return Optional.empty();
      }
      Files.setLastModifiedTime(file, FileTime.fromMillis(System.currentTimeMillis()));
      return Optional.of(content);
    } catch (IOException e) {
      // It is computed again.
      return Optional.empty();
    }
  }

  /**
   * Keeps something under a name; it appears whole or not at all.
   *
   * @throws IOException if there is no room; nothing is lost by that
   */
  public synchronized void keep(String name, byte[] content) throws IOException {
    if (content.length > mostBytes) {
      return;
    }
    OwnerOnly.folder(folder);
    Path fresh = folder.resolve(INCOMING + UUID.randomUUID());
    try {
      try (var out = Files.newOutputStream(fresh)) {
        out.write(hash(name, content));
        out.write(content);
      }
      OwnerOnly.file(fresh);
      Files.move(fresh, file(name), StandardCopyOption.ATOMIC_MOVE);
      dropOldest();
    } finally {
      Files.deleteIfExists(fresh);
    }
  }

  private Path file(String name) {
    return folder.resolve(Hash.of(name));
  }

  private static byte[] hash(String name, byte[] content) {
    MessageDigest digest = Hash.digest();
    digest.update(HexFormat.of().parseHex(Hash.of(name)));
    return digest.digest(content);
  }

  private record Kept(Path file, long bytes, FileTime usedAt) {}

  private void dropOldest() throws IOException {
    List<Kept> all = new ArrayList<>();
    try (var files = Files.newDirectoryStream(folder)) {
      for (Path file : files) {
        if (!String.valueOf(file.getFileName()).startsWith(INCOMING)) {
          all.add(new Kept(file, Files.size(file), Files.getLastModifiedTime(file)));
        }
      }
    }
    all.sort(java.util.Comparator.comparing(Kept::usedAt));
    long bytes = all.stream().mapToLong(Kept::bytes).sum();
    for (int i = 0; bytes > mostBytes && i + 1 < all.size(); i++) {
      Files.deleteIfExists(all.get(i).file());
      bytes -= all.get(i).bytes();
    }
  }

  /** Takes away what an interrupted copy left behind. */
  public void sweep() throws IOException {
    if (!Files.isDirectory(folder)) {
      return;
    }
    try (var files = Files.newDirectoryStream(folder, INCOMING + "*")) {
      for (Path file : files) {
        Files.deleteIfExists(file);
      }
    }
  }
}
