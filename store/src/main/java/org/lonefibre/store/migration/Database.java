package org.lonefibre.store.migration;

import java.nio.file.Path;
import java.sql.Connection;
import java.sql.SQLException;
import java.sql.Statement;
import javax.sql.DataSource;
import org.flywaydb.core.Flyway;
import org.jdbi.v3.core.Jdbi;
import org.jdbi.v3.core.statement.StatementExceptions;
import org.postgresql.ds.PGSimpleDataSource;
import org.sqlite.SQLiteConfig;
import org.sqlite.SQLiteDataSource;

/**
 * The database of a store, brought to the newest tables when it is opened.
 *
 * <ul>
 *   <li>SQLite: write-ahead log, every commit reaches the disk before it is called saved.
 *   <li>PostgreSQL: the same tables and the same statements.
 *   <li>Thread rule: safe; writers wait for one another.
 * </ul>
 */
public final class Database {

  private static final String PLACE = "classpath:org/lonefibre/store/migration/";
  private static final int WAIT_MS = 10_000;

  /** Which database program keeps the tables. */
  public enum Kind {
    /** A file beside the recordings. */
    SQLITE,
    /** A server. */
    POSTGRESQL
  }

  private final Kind kind;
  private final DataSource source;
  private final Jdbi jdbi;

  private Database(Kind kind, DataSource source) {
    this.kind = kind;
    this.source = source;
    this.jdbi = Jdbi.create(source);
    // Faults are written to a log, and what is bound to a statement may identify a person.
    jdbi.configure(
        StatementExceptions.class,
        config -> config.setMessageRendering(StatementExceptions.MessageRendering.NONE));
  }

  /** The database in a file; made if there is none. */
  public static Database file(Path file) {
    SQLiteConfig config = new SQLiteConfig();
    config.setJournalMode(SQLiteConfig.JournalMode.WAL);
    config.setSynchronous(SQLiteConfig.SynchronousMode.FULL);
    config.enforceForeignKeys(true);
    config.setBusyTimeout(WAIT_MS);
    config.setTransactionMode(SQLiteConfig.TransactionMode.IMMEDIATE);
    SQLiteDataSource source = new SQLiteDataSource(config);
    source.setUrl("jdbc:sqlite:" + file.toAbsolutePath());
    return new Database(Kind.SQLITE, source);
  }

  /**
   * The database on a server.
   *
   * @param url as {@code jdbc:postgresql://host/name?user=...}
   */
  public static Database server(String url) {
    PGSimpleDataSource source = new PGSimpleDataSource();
    source.setUrl(url);
    return new Database(Kind.POSTGRESQL, source);
  }

  /** Brings the tables to the newest version. */
  public void migrate() {
    Flyway.configure(Database.class.getClassLoader())
        .dataSource(source)
        .locations(PLACE + "tables", PLACE + (kind == Kind.SQLITE ? "sqlite" : "postgresql"))
        .load()
        .migrate();
  }

  /** Which program it is. */
  public Kind kind() {
    return kind;
  }

  /** Statements on it. */
  public Jdbi jdbi() {
    return jdbi;
  }

  /** A connection of one's own. */
  public Connection connect() throws SQLException {
    return source.getConnection();
  }

  /** What the database says of its own state: {@code ok} if nothing is wrong. SQLite only. */
  public String quickCheck() throws SQLException {
    try (Connection connection = connect();
        Statement statement = connection.createStatement();
        var rows = statement.executeQuery("pragma quick_check")) {
      return rows.next() ? String.valueOf(rows.getString(1)) : "no answer";
    }
  }

  /** Writes a consistent copy of it into a file that does not exist. SQLite only. */
  public void copyInto(Path file) throws SQLException {
    try (Connection connection = connect();
        var statement = connection.prepareStatement("vacuum into ?")) {
      statement.setString(1, file.toAbsolutePath().toString());
      statement.execute();
    }
  }
}
