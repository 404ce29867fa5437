package org.lonefibre.app.store;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Clock;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import org.lonefibre.store.Store;
import picocli.CommandLine.Option;

/** The options that say where studies are kept. */
public final class DataOptions {

  @Option(
      names = "--data",
      paramLabel = "DIR",
      description =
          "Folder in which studies are kept (LONEFIBRE_DATA, else one in the home folder).")
  private @Nullable Path data;

  @Option(
      names = "--database",
      paramLabel = "URL",
      description =
          "JDBC URL of a PostgreSQL database for the tables (LONEFIBRE_DATABASE); recordings stay in"
              + " the folder.")
  private @Nullable String database;

  /** The folder. */
  public Path folder() {
    if (data != null) {
      return data;
    }
    String told = System.getenv("LONEFIBRE_DATA");
    if (told != null && !told.isBlank()) {
      return Path.of(told);
    }
    Path home = Path.of(System.getProperty("user.home"));
    boolean windows = System.getProperty("os.name").toLowerCase(Locale.ROOT).startsWith("windows");
    return windows
        ? home.resolve("AppData").resolve("Local").resolve("Lonefibre")
        : home.resolve(".local").resolve("share").resolve("lonefibre");
  }

  /** URL of the database; null for the folder. */
  public @Nullable String database() {
    return database == null ? System.getenv("LONEFIBRE_DATABASE") : database;
  }

  /** Opens the store. */
  public Store open() throws IOException {
    return Store.open(folder(), database(), Clock.systemUTC());
  }
}
