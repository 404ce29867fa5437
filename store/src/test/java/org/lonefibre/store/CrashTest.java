package org.lonefibre.store;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.BufferedReader;
import java.io.IOException;
import java.nio.file.Path;
import java.time.Clock;
import java.util.Random;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A kill at any moment loses nothing that was shown as saved. */
class CrashTest {

  /** Hundreds with {@code -Dlonefibre.kills=200}; each takes about a second. */
  private static final int KILLS = Integer.getInteger("lonefibre.kills", 12);

  @TempDir @Nullable Path temporary;

  @Test
  void aKilledWriterLosesNothingItCalledSaved() throws IOException, InterruptedException {
    Path folder = java.util.Objects.requireNonNull(temporary).resolve("data");
    long seed = Long.getLong("lonefibre.seed", 20260302);
    Random random = new Random(seed);
    int called = 0;
    for (int kill = 0; kill < KILLS; kill++) {
      Process writer =
          new ProcessBuilder(
                  Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                  "-XX:TieredStopAtLevel=1",
                  "-cp",
                  System.getProperty("java.class.path"),
                  Writer.class.getName(),
                  folder.toString())
              .redirectError(ProcessBuilder.Redirect.DISCARD)
              .start();
      int lines = 1 + random.nextInt(12);
      try (BufferedReader out = writer.inputReader()) {
        String line = "";
        for (int i = 0; i < lines && line != null; i++) {
          line = out.readLine();
          called = line == null ? called : Integer.parseInt(line);
        }
        // Anywhere within the next save.
        long until = System.nanoTime() + random.nextInt(8_000_000);
        while (System.nanoTime() < until) {
          Thread.onSpinWait();
        }
        // Not of the process itself, which would close the stream with what was still said.
        assertThat(writer.toHandle().destroyForcibly()).isTrue();
        writer.waitFor();
        for (line = out.readLine(); line != null; line = out.readLine()) {
          called = line.isEmpty() ? called : Integer.parseInt(line);
        }
      }
      try (Store store = Store.open(folder, null, Clock.systemUTC())) {
        assertThat(store.verify()).as("seed %d, kill %d", seed, kill).isEmpty();
        String id = store.studies().list("").get(0).id();
        assertThat(store.studies().steps().list(id).size())
            .as("seed %d, kill %d", seed, kill)
            .isGreaterThanOrEqualTo(called);
      }
    }
    assertThat(called).isGreaterThan(KILLS);
  }
}
