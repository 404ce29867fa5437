package org.lonefibre.store;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.sql.SQLException;
import java.util.List;
import org.lonefibre.store.audit.OwnerOnly;
import org.lonefibre.store.migration.Database;
import org.lonefibre.store.migration.StoreFault;

/** Copies of the database taken when a store is closed: the last good states. */
final class SnapshotKeeper {

  private static final byte[] MAGIC =
      "SQLite format 3\0".getBytes(java.nio.charset.StandardCharsets.US_ASCII);

  private SnapshotKeeper() {}

  static void requireSound(DataFolder folder) throws IOException {
    String state = state(folder.database());
    if (state.equals("ok")) {
      return;
    }
    List<Path> good = listGood(folder);
    throw new StoreFault(
        folder.database().toString(),
        "a sound database",
        "damage (" + state.lines().findFirst().orElse("unreadable") + ")",
        good.isEmpty()
            ? "there is no snapshot; restore a backup into another folder with \"store restore\""
            : "the last good state is "
                + good.get(0).getFileName()
                + ": bring it back with \"store restore --snapshot\"");
  }

  private static List<Path> listGood(DataFolder folder) throws IOException {
    return folder.listSnapshots().stream().filter(file -> state(file).equals("ok")).toList();
  }

  /** {@code ok}, also for a database that is not there yet; else what is wrong. */
  private static String state(Path file) {
    try {
      if (!Files.exists(file) || Files.size(file) == 0) {
        return "ok";
      }
      try (var in = Files.newInputStream(file)) {
        if (!java.util.Arrays.equals(in.readNBytes(MAGIC.length), MAGIC)) {
          return "its first bytes are not those of a database";
        }
      }
      return Database.file(file).quickCheck();
    } catch (IOException | SQLException | RuntimeException e) {
      return String.valueOf(e.getMessage());
    }
  }

  static void keep(DataFolder folder, Database database, String now) throws IOException {
    Path file = folder.snapshots().resolve(now.replace(':', '-') + ".db");
    Path fresh = folder.snapshots().resolve("fresh");
    try {
      Files.deleteIfExists(fresh);
      database.copyInto(fresh);
      OwnerOnly.file(fresh);
      Files.move(fresh, file, StandardCopyOption.ATOMIC_MOVE, StandardCopyOption.REPLACE_EXISTING);
      folder.dropOldSnapshots();
    } catch (SQLException e) {
      throw new IOException("no snapshot could be made: " + e.getMessage(), e);
    }
  }

  static Path restoreNewest(DataFolder folder) throws IOException {
    List<Path> good = listGood(folder);
    if (good.isEmpty()) {
      throw new StoreFault(
          folder.path().toString(), "a sound snapshot", "none", "restore a backup");
    }
    Path database = folder.database();
    for (String ending : List.of("", "-wal", "-shm")) {
      Path part = database.resolveSibling(database.getFileName() + ending);
      if (Files.exists(part)) {
        Files.move(
            part,
            part.resolveSibling("damaged-" + part.getFileName()),
            StandardCopyOption.REPLACE_EXISTING);
      }
    }
    Path fresh = database.resolveSibling("restored");
    Files.copy(good.get(0), fresh, StandardCopyOption.REPLACE_EXISTING);
    OwnerOnly.file(fresh);
    Files.move(fresh, database, StandardCopyOption.ATOMIC_MOVE);
    return good.get(0);
  }
}
