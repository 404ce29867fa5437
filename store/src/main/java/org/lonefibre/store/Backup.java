package org.lonefibre.store;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.json.JsonMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.BufferedReader;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.sql.ResultSetMetaData;
import java.sql.Types;
import java.time.Clock;
import java.util.ArrayList;
import java.util.Enumeration;
import java.util.List;
import java.util.zip.ZipEntry;
import java.util.zip.ZipException;
import java.util.zip.ZipFile;
import java.util.zip.ZipOutputStream;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.Jdbi;
import org.jspecify.annotations.Nullable;
import org.lonefibre.store.audit.OwnerOnly;
import org.lonefibre.store.migration.StoreFault;
import org.lonefibre.store.recordings.RecordingFiles;

/**
 * A store as one ZIP file: every table as lines of JSON, every recording unchanged. It does not
 * depend on the database program: a backup of the one restores into the other.
 */
final class Backup {

  /** In an order in which each row finds what it refers to. */
  private static final List<String> TABLES =
      List.of(
          "recording",
          "study",
          "study_recording",
          "document",
          "decision",
          "note",
          "signature",
          "limit_entry",
          "practice_answer",
          "change_record");

  /** What backups made before it was kept do not hold. */
  private static final List<String> LATER = List.of("practice_answer");

  private static final String KEY = "installation.key";
  private static final JsonMapper MAPPER = JsonMapper.builder().build();

  private Backup() {}

  static void write(Jdbi jdbi, RecordingFiles recordings, Path key, Path file) throws IOException {
    Path fresh = file.resolveSibling("." + file.getFileName() + ".part");
    try (ZipOutputStream zip = new ZipOutputStream(Files.newOutputStream(fresh))) {
      OwnerOnly.file(fresh);
      jdbi.useTransaction(
          handle -> {
            for (String table : TABLES) {
              zip.putNextEntry(new ZipEntry("tables/" + table + ".jsonl"));
              writeTable(handle, table, zip);
              zip.closeEntry();
            }
          });
      for (var recording : listRecordings(jdbi)) {
        Path kept = recordings.path(recording);
        zip.putNextEntry(new ZipEntry("recordings/" + kept.getFileName()));
        Files.copy(kept, zip);
        zip.closeEntry();
      }
      zip.putNextEntry(new ZipEntry(KEY));
      Files.copy(key, zip);
      zip.closeEntry();
    } catch (IOException | RuntimeException e) {
      Files.deleteIfExists(fresh);
      throw e;
    }
    Files.move(fresh, file, StandardCopyOption.ATOMIC_MOVE, StandardCopyOption.REPLACE_EXISTING);
  }

  private static List<org.lonefibre.store.recordings.KeptRecording> listRecordings(Jdbi jdbi) {
    return jdbi.withHandle(
        handle ->
            handle
                .createQuery("select * from recording")
                .map(
                    (row, context) ->
                        new org.lonefibre.store.recordings.KeptRecording(
                            row.getString("sha256"),
                            row.getString("extension"),
                            row.getLong("size_bytes")))
                .list());
  }

  private static void writeTable(Handle handle, String table, OutputStream out) {
    handle
        .createQuery("select * from " + table)
        .map(
            (row, context) -> {
              ObjectNode line = MAPPER.createObjectNode();
              ResultSetMetaData columns = row.getMetaData();
              for (int i = 1; i <= columns.getColumnCount(); i++) {
                String name = columns.getColumnName(i);
                String text = row.getString(i);
                int type = columns.getColumnType(i);
                if (text != null && (type == Types.INTEGER || type == Types.BIGINT)) {
                  line.put(name, row.getLong(i));
                } else {
                  line.put(name, text);
                }
              }
              return line;
            })
        .forEach(
            line -> {
              try {
                out.write(
                    (MAPPER.writeValueAsString(line) + "\n").getBytes(StandardCharsets.UTF_8));
              } catch (IOException e) {
                throw new UncheckedIOException(e);
              }
            });
  }

  static void restore(Path backup, Path path, @Nullable String serverUrl, Clock clock)
      throws IOException {
    if (Files.exists(path.resolve("lonefibre.db"))) {
      throw new StoreFault(
          path.toString(), "an empty folder", "a store", "give a new folder with --data");
    }
    try (ZipFile zip = new ZipFile(backup.toFile())) {
      List<? extends ZipEntry> entries = entries(zip);
      for (String table : TABLES) {
        if (!LATER.contains(table) && zip.getEntry("tables/" + table + ".jsonl") == null) {
          throw notWhole(backup, "no table " + table);
        }
      }
      ZipEntry key = zip.getEntry(KEY);
      if (key != null) {
        OwnerOnly.folder(path);
        Files.copy(zip.getInputStream(key), path.resolve(KEY));
        OwnerOnly.file(path.resolve(KEY));
      }
      try (Store store = Store.open(path, serverUrl, clock)) {
        if (!store.isEmpty()) {
          throw new StoreFault("database", "an empty store", "studies", "give another database");
        }
        for (ZipEntry entry : entries) {
          if (entry.getName().startsWith("recordings/")) {
            String name = entry.getName().substring("recordings/".length());
            try (InputStream in = zip.getInputStream(entry)) {
              var kept = store.recordings().keep(in, name, Long.MAX_VALUE);
              if (!name.startsWith(kept.sha256())) {
                throw notWhole(backup, "a recording that does not fit its name");
              }
            }
          }
        }
        store.database().jdbi().useTransaction(handle -> fill(handle, zip));
        List<String> wrong = store.verify();
        if (!wrong.isEmpty()) {
          throw notWhole(backup, wrong.get(0));
        }
      }
    } catch (ZipException | JsonProcessingException e) {
      throw notWhole(backup, String.valueOf(e.getMessage()));
    }
  }

  private static StoreFault notWhole(Path backup, String found) {
    return new StoreFault(
        String.valueOf(backup.getFileName()), "a whole backup", found, "take another backup");
  }

  private static List<? extends ZipEntry> entries(ZipFile zip) {
    List<ZipEntry> entries = new ArrayList<>();
    for (Enumeration<? extends ZipEntry> all = zip.entries(); all.hasMoreElements(); ) {
      entries.add(all.nextElement());
    }
    return entries;
  }

  private static void fill(Handle handle, ZipFile zip) throws IOException {
    for (String table : TABLES) {
      ZipEntry entry = zip.getEntry("tables/" + table + ".jsonl");
      InputStream in =
          entry == null ? new ByteArrayInputStream(new byte[0]) : zip.getInputStream(entry);
      try (BufferedReader lines =
          new BufferedReader(new InputStreamReader(in, StandardCharsets.UTF_8))) {
        for (String line = lines.readLine(); line != null; line = lines.readLine()) {
          insert(handle, table, MAPPER.readTree(line));
        }
      }
    }
  }

  private static void insert(Handle handle, String table, JsonNode row) {
    List<String> names = new ArrayList<>();
    row.fieldNames().forEachRemaining(names::add);
    if (names.stream().anyMatch(name -> !name.matches("[a-z0-9_]+"))) {
      throw new IllegalArgumentException("a column of " + table + " has no plain name");
    }
    var insert =
        handle.createUpdate(
            "insert into "
                + table
                + " ("
                + String.join(", ", names)
                + ") values (:"
                + String.join(", :", names)
                + ")");
    for (String name : names) {
      JsonNode value = row.get(name);
      if (value.isNumber()) {
        insert.bind(name, value.longValue());
      } else {
        insert.bind(name, value.isNull() ? null : value.textValue());
      }
    }
    insert.execute();
  }
}
