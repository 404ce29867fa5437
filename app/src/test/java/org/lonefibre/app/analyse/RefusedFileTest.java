package org.lonefibre.app.analyse;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.lonefibre.app.CommandRun;

/** A refused file is one line; where it failed in the program is said only when asked for. */
@Tag("unit")
class RefusedFileTest {

  @TempDir Path folder;

  @Test
  void isOneLineAndWithDebugTheTraceToo() throws IOException {
    Path file = folder.resolve("broken.edf");
    Files.write(file, "0       no header".getBytes(StandardCharsets.US_ASCII));
    CommandRun plain = CommandRun.of("analyse", file);
    assertThat(plain.exitCode()).isEqualTo(2);
    assertThat(plain.errors().lines()).hasSize(1).allMatch(line -> line.contains("broken.edf"));
    CommandRun debug = CommandRun.of("analyse", "--debug", file);
    assertThat(debug.exitCode()).isEqualTo(2);
    assertThat(debug.errors()).startsWith(plain.errors().strip()).contains("at org.lonefibre.");
  }
}
