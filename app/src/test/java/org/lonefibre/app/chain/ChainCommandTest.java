package org.lonefibre.app.chain;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.lonefibre.app.CommandRun;

class ChainCommandTest {

  @TempDir Path folder;

  @Test
  void writtenSignalIsReadBackAndKeptWithItsDate() throws IOException {
    Path signal = folder.resolve("signal.wav");
    Path kept = folder.resolve("chain.json");
    assertThat(CommandRun.of("chain", "--write", signal).exitCode()).isZero();
    CommandRun run = CommandRun.of("chain", signal, "--out", kept);
    assertThat(run.exitCode()).isZero();
    assertThat(run.output())
        .contains("rate: 48000.000 Hz by the player's clock")
        .contains("high-pass: none found")
        .contains("no step was found");
    assertThat(Files.readString(kept))
        .contains("\"lonefibre-chain-1\"", "\"testedOn\"", "\"smallestJitterUs\"");
  }

  @Test
  void anotherRecordingIsOneLine() throws IOException {
    Path flat = folder.resolve("flat.csv");
    Files.writeString(flat, "emg_uV\n" + "1\n2\n".repeat(20_000));
    CommandRun run = CommandRun.of("chain", flat, "--sampling-rate-hz", "20000");
    assertThat(run.exitCode()).isEqualTo(2);
    assertThat(run.errors()).hasLineCount(1).contains("pairs of the test signal");
    assertThat(CommandRun.of("chain").errors()).hasLineCount(1).contains("--write FILE.wav");
  }
}
