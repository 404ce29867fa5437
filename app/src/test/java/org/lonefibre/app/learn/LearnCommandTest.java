package org.lonefibre.app.learn;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.lonefibre.app.CommandRun;

/** What is not done here is not learnt, and every later start would be slower for it. */
@Tag("contract")
class LearnCommandTest {

  @TempDir private Path folder;

  @Test
  void aRecordingIsAnalysedAndTheWorkbenchStarted() {
    CommandRun run = CommandRun.of("learn", folder);
    assertThat(run.exitCode()).as(run.errors()).isZero();
    assertThat(folder.resolve("study/analysis.json")).isNotEmptyFile();
    assertThat(folder.resolve("study/report.pdf")).isNotEmptyFile();
    assertThat(folder.resolve("data")).isNotEmptyDirectory();
  }

  /** A folder that cannot be made: no later step is tried. */
  @Test
  void whatFailsEndsIt() throws Exception {
    Path file = Files.writeString(folder.resolve("a file"), "");
    assertThat(CommandRun.of("learn", file).exitCode()).isEqualTo(2);
  }

  @Test
  void helpDoesNotNameIt() {
    assertThat(CommandRun.of("--help").output()).contains("analyse").doesNotContain("learn");
  }
}
