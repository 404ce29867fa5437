package org.lonefibre.store.audit;

import java.io.IOException;
import java.nio.file.FileSystems;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;

/** Keeps files and folders to their owner, where the file system knows owners. */
public final class OwnerOnly {

  private OwnerOnly() {}

  /** Makes a folder, and those above it, that only its owner may enter (0700). */
  public static void folder(Path folder) throws IOException {
    Files.createDirectories(folder);
    if (isPosix()) {
      Files.setPosixFilePermissions(folder, PosixFilePermissions.fromString("rwx------"));
    }
  }

  /** A file that only its owner may read and write (0600). */
  public static void file(Path file) throws IOException {
    if (isPosix()) {
      Files.setPosixFilePermissions(file, PosixFilePermissions.fromString("rw-------"));
    }
  }

  private static boolean isPosix() {
    return FileSystems.getDefault().supportedFileAttributeViews().contains("posix");
  }
}
