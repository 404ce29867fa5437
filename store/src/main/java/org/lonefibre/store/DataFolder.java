package org.lonefibre.store;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.channels.OverlappingFileLockException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.List;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.lonefibre.store.audit.OwnerOnly;
import org.lonefibre.store.migration.StoreFault;

/** The folder of a store: its files by name, and the lock that keeps a second instance out. */
final class DataFolder implements AutoCloseable {

  private static final int MOST_SNAPSHOTS = 3;

  private final Path folder;
  private final FileChannel channel;
  private final FileLock lock;

  private DataFolder(Path folder, FileChannel channel, FileLock lock) {
    this.folder = folder;
    this.channel = channel;
    this.lock = lock;
  }

  /**
   * Takes a folder for this instance.
   *
   * @throws StoreFault if another instance has it
   */
  static DataFolder take(Path folder) throws IOException {
    OwnerOnly.folder(folder);
    FileChannel channel =
        FileChannel.open(
            folder.resolve("lock"), StandardOpenOption.CREATE, StandardOpenOption.WRITE);
    FileLock lock = tryLock(channel);
    if (lock == null) {
      channel.close();
      throw new StoreFault(
          folder.toString(),
          "a data folder that is free",
          "another Lonefibre at work in it",
          "close that one, or give another folder with --data");
    }
    return new DataFolder(folder, channel, lock);
  }

  private static @Nullable FileLock tryLock(FileChannel channel) throws IOException {
    try {
      return channel.tryLock();
    } catch (OverlappingFileLockException e) {
      return null;
    }
  }

  Path path() {
    return folder;
  }

  Path database() {
    return folder.resolve("lonefibre.db");
  }

  Path recordings() {
    return folder.resolve("recordings");
  }

  Path derived() {
    return folder.resolve("derived");
  }

  Path key() {
    return folder.resolve("installation.key");
  }

  Path snapshots() throws IOException {
    Path snapshots = folder.resolve("snapshots");
    OwnerOnly.folder(snapshots);
    return snapshots;
  }

  /** Snapshots of the database, the newest first. */
  List<Path> listSnapshots() throws IOException {
    try (Stream<Path> files = Files.list(snapshots())) {
      return files
          .filter(file -> file.toString().endsWith(".db"))
          .sorted(java.util.Comparator.reverseOrder())
          .toList();
    }
  }

  void dropOldSnapshots() throws IOException {
    List<Path> all = listSnapshots();
    for (Path old : all.subList(Math.min(all.size(), MOST_SNAPSHOTS), all.size())) {
      Files.deleteIfExists(old);
    }
  }

  @Override
  public void close() throws IOException {
    lock.release();
    channel.close();
  }
}
