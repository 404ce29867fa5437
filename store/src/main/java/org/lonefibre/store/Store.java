package org.lonefibre.store;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.SQLException;
import java.time.Clock;
import java.util.ArrayList;
import java.util.List;
import org.jdbi.v3.core.JdbiException;
import org.jspecify.annotations.Nullable;
import org.lonefibre.store.audit.Change;
import org.lonefibre.store.audit.ChangeLog;
import org.lonefibre.store.audit.OwnerOnly;
import org.lonefibre.store.audit.Seal;
import org.lonefibre.store.limits.LimitShelf;
import org.lonefibre.store.migration.Database;
import org.lonefibre.store.migration.StoreFault;
import org.lonefibre.store.practice.PracticeShelf;
import org.lonefibre.store.recordings.DerivedFiles;
import org.lonefibre.store.recordings.KeptRecording;
import org.lonefibre.store.recordings.RecordingFiles;
import org.lonefibre.store.studies.KeptStudy;
import org.lonefibre.store.studies.StudyShelf;

/**
 * Studies and recordings, kept in a data folder (or with the tables on a server).
 *
 * <ul>
 *   <li>One instance at a time: a second one is refused.
 *   <li>A damaged database is not opened; the fault says what is wrong and names the last good
 *       snapshot.
 *   <li>Thread rule: safe.
 * </ul>
 */
public final class Store implements AutoCloseable {

  private static final long SERVER_LOCK = 0x4c6f_6e65_6669_6272L;

  private final DataFolder folder;
  private final Database database;
  private final @Nullable Connection serverLock;
  private final ChangeLog changes;
  private final RecordingFiles recordings;
  private final DerivedFiles derived;
  private final StudyShelf studies;
  private final LimitShelf limits;
  private final PracticeShelf practice;
  private final Seal seal;

  private Store(DataFolder folder, Database database, @Nullable Connection serverLock, Clock clock)
      throws IOException {
    this.folder = folder;
    this.database = database;
    this.serverLock = serverLock;
    this.changes = new ChangeLog(clock);
    this.recordings = new RecordingFiles(folder.recordings());
    this.derived = new DerivedFiles(folder.derived());
    this.studies = new StudyShelf(database.jdbi(), changes);
    this.limits = new LimitShelf(database.jdbi(), changes);
    this.practice = new PracticeShelf(database.jdbi(), changes);
    this.seal = Seal.of(folder.key());
    recordings.sweep();
    derived.sweep();
  }

  /**
   * Opens a store, which is made if the folder is empty.
   *
   * @param path the data folder
   * @param serverUrl JDBC URL of a PostgreSQL database for the tables; null to keep them in the
   *     folder
   * @throws StoreFault if it is in use or damaged
   */
  public static Store open(Path path, @Nullable String serverUrl, Clock clock) throws IOException {
    DataFolder folder = DataFolder.take(path);
    Connection lock = null;
    try {
      Database database;
      if (serverUrl == null) {
        SnapshotKeeper.requireSound(folder);
        database = Database.file(folder.database());
      } else {
        database = Database.server(serverUrl);
        lock = lockServer(database);
      }
      database.migrate();
      if (serverUrl == null) {
        OwnerOnly.file(folder.database());
      }
      return new Store(folder, database, lock, clock);
    } catch (IOException | SQLException | RuntimeException e) {
      closeQuietly(lock);
      folder.close();
      if (e instanceof IOException fault) {
        throw fault;
      }
      throw new StoreFault(
          path.toString(),
          "a store that opens",
          String.valueOf(e.getMessage()).lines().findFirst().orElse("no reason"),
          "check the place, its space and permissions");
    }
  }

  private static Connection lockServer(Database database) throws SQLException, StoreFault {
    Connection connection = database.connect();
    try (var statement = connection.prepareStatement("select pg_try_advisory_lock(?)")) {
      statement.setLong(1, SERVER_LOCK);
      try (var rows = statement.executeQuery()) {
        if (rows.next() && rows.getBoolean(1)) {
          return connection;
        }
      }
    }
    connection.close();
    throw new StoreFault(
        "database", "to be free", "another Lonefibre at work in it", "close that one");
  }

  /** The studies. */
  public StudyShelf studies() {
    return studies;
  }

  /** What the laboratory decided about limits. */
  public LimitShelf limits() {
    return limits;
  }

  /** Answers of people who practise. */
  public PracticeShelf practice() {
    return practice;
  }

  /** The key that seals signed studies. */
  public Seal seal() {
    return seal;
  }

  /** Keeps a recording; it belongs to a study only when an analysis names it. */
  public KeptRecording keepRecording(InputStream content, String fileName, long mostBytes)
      throws IOException {
    return recordings.keep(content, fileName, mostBytes);
  }

  /** A recording whose file was kept, in a study or not yet. */
  public java.util.Optional<KeptRecording> findKept(String sha256, String fileName)
      throws java.io.UncheckedIOException {
    return recordings.find(sha256, fileName);
  }

  /** The unchanged file of a recording. */
  public Path file(KeptRecording recording) {
    return recordings.path(recording);
  }

  /** What was computed from recordings, and can be computed again. */
  public DerivedFiles derived() {
    return derived;
  }

  /** Changes to one study, or to all if the text is empty, the newest first. */
  public List<Change> listChanges(String studyId, int most) {
    return database
        .jdbi()
        .withHandle(
            handle -> changes.list(handle, studyId.isEmpty() ? "" : "study " + studyId, most));
  }

  /** What is wrong with the store, a line each; empty if all is as it was kept. */
  public List<String> verify() throws IOException {
    try {
      return new Verification(database.jdbi(), changes, recordings).run();
    } catch (JdbiException e) {
      List<String> wrong = new ArrayList<>();
      wrong.add("database: " + e.getMessage());
      return wrong;
    }
  }

  /** Writes everything into one file, which appears whole or not at all. */
  public void backup(Path file) throws IOException {
    Backup.write(database.jdbi(), recordings, folder.key(), file);
  }

  /**
   * Fills an empty data folder from a backup.
   *
   * @throws StoreFault if the folder holds a store already, or the backup is not whole; the folder
   *     is left as it was
   */
  public static void restore(Path backup, Path path, @Nullable String serverUrl, Clock clock)
      throws IOException {
    Backup.restore(backup, path, serverUrl, clock);
  }

  /** Puts the newest snapshot in the place of a damaged database, which is kept beside it. */
  public static Path restoreSnapshot(Path path) throws IOException {
    try (DataFolder folder = DataFolder.take(path)) {
      return SnapshotKeeper.restoreNewest(folder);
    }
  }

  Database database() {
    return database;
  }

  RecordingFiles recordings() {
    return recordings;
  }

  Path keyFile() {
    return folder.key();
  }

  boolean isEmpty() {
    return studies.list("").stream().map(KeptStudy::id).findAny().isEmpty();
  }

  /** Closes it, with a snapshot of the database if it changed. */
  @Override
  public void close() throws IOException {
    try {
      if (database.kind() == Database.Kind.SQLITE && Files.exists(folder.database())) {
        SnapshotKeeper.keep(folder, database, changes.now());
      }
    } finally {
      closeQuietly(serverLock);
      folder.close();
    }
  }

  private static void closeQuietly(@Nullable Connection connection) {
    if (connection != null) {
      try {
        connection.close();
      } catch (SQLException e) {
        // The server drops the lock with the connection in any case.
      }
    }
  }
}
