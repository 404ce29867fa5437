package org.lonefibre.store;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.io.RandomAccessFile;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.Random;
import java.util.concurrent.TimeUnit;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.lonefibre.store.migration.StoreFault;

/** Damaged folders and full disks. */
class DamageTest {

  @TempDir @Nullable Path temporary;

  private Path folder() {
    return java.util.Objects.requireNonNull(temporary).resolve("data");
  }

  private String kept() throws IOException {
    try (Store store = Store.open(folder(), null, Clock.systemUTC())) {
      String id = store.studies().create("Kept", null, "examination", "x").id();
      for (int i = 0; i < 200; i++) {
        store.studies().note(id, "comment", "text ".repeat(50) + i, "x");
      }
      return id;
    }
  }

  @Test
  void aDamagedDatabaseIsNamedAndTheLastGoodStateBroughtBack() throws IOException {
    String id = kept();
    Path database = folder().resolve("lonefibre.db");
    try (RandomAccessFile file = new RandomAccessFile(database.toFile(), "rw")) {
      byte[] garbage = new byte[(int) file.length() / 2];
      new Random(7).nextBytes(garbage);
      file.seek(4096);
      file.write(garbage);
    }
    assertThatThrownBy(() -> Store.open(folder(), null, Clock.systemUTC()))
        .isInstanceOf(StoreFault.class)
        .hasMessageContaining("damage")
        .hasMessageContaining("store restore --snapshot");
    Store.restoreSnapshot(folder());
    try (Store store = Store.open(folder(), null, Clock.systemUTC())) {
      assertThat(store.studies().notes(id).get("comment")).endsWith("199");
      assertThat(store.verify()).isEmpty();
    }
    assertThat(folder().resolve("damaged-lonefibre.db")).exists();
  }

  @Test
  void aForeignFileInPlaceOfTheDatabaseIsNamed() throws IOException {
    Files.createDirectories(folder());
    Files.writeString(folder().resolve("lonefibre.db"), "<html>not a database at all</html>");
    assertThatThrownBy(() -> Store.open(folder(), null, Clock.systemUTC()))
        .isInstanceOf(StoreFault.class)
        .hasMessageContaining("first bytes")
        .hasMessageContaining("restore a backup");
  }

  @Test
  void aBrokenBackupIsRefused() throws IOException {
    kept();
    Path backup = folder().resolveSibling("backup.zip");
    try (Store store = Store.open(folder(), null, Clock.systemUTC())) {
      store.backup(backup);
    }
    byte[] bytes = Files.readAllBytes(backup);
    Files.write(backup, java.util.Arrays.copyOf(bytes, bytes.length / 2));
    Path other = folder().resolveSibling("other");
    assertThatThrownBy(() -> Store.restore(backup, other, null, Clock.systemUTC()))
        .isInstanceOf(StoreFault.class);
    assertThat(other.resolve("lonefibre.db")).doesNotExist();
  }

  @Test
  void aFullDiskLosesNothingThatWasSaved() throws IOException, InterruptedException {
    Path volume = Files.createDirectory(folder().resolveSibling("volume"));
    assumeTrue(
        run("mount", "-t", "tmpfs", "-o", "size=2m", "tmpfs", volume.toString()),
        "no small volume can be mounted (root is needed)");
    try {
      int saved = 0;
      String id = "";
      try (Store store = Store.open(volume.resolve("data"), null, Clock.systemUTC())) {
        id = store.studies().create("Full", null, "examination", "x").id();
        for (int i = 1; i < 10_000; i++) {
          store.studies().note(id, "comment", "text ".repeat(200) + i, "x");
          saved = i;
        }
      } catch (IOException | RuntimeException full) {
        assertThat(full).hasStackTraceContaining("full");
      }
      assertThat(saved).isBetween(10, 9_998);
      Files.deleteIfExists(volume.resolve("data/snapshots/fresh"));
      run("mount", "-o", "remount,size=8m", volume.toString());
      try (Store store = Store.open(volume.resolve("data"), null, Clock.systemUTC())) {
        assertThat(store.verify()).isEmpty();
        assertThat(store.studies().notes(id).get("comment")).endsWith(" " + saved);
      }
    } finally {
      run("umount", volume.toString());
    }
  }

  private static boolean run(String... command) throws IOException, InterruptedException {
    Process process =
        new ProcessBuilder(command)
            .redirectErrorStream(true)
            .redirectOutput(ProcessBuilder.Redirect.DISCARD)
            .start();
    return process.waitFor(20, TimeUnit.SECONDS) && process.exitValue() == 0;
  }
}
