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
  void keptTestIsShownInEveryReportAndAnotherFileIsOneLine() throws IOException {
    Path signal = folder.resolve("signal.wav");
    Path kept = folder.resolve("chain.json");
    CommandRun.of("chain", "--write", signal);
    CommandRun.of("chain", signal, "--out", kept);
    Path sites = folder.resolve("sites");
    assertThat(CommandRun.of("simulate", "--seed", "5", "--sites", "1", "--out", sites).exitCode())
        .isZero();
    Path study = sites.resolve("study.yaml");
    Files.writeString(study, Files.readString(study) + "chainTest: ../chain.json\n");
    Path out = folder.resolve("out");
    CommandRun run = CommandRun.of("analyse", "--study", study, "--out", out);
    assertThat(run.exitCode()).as(run.errors()).isZero();
    assertThat(run.output()).contains("test of the chain on");
    assertThat(Files.readString(out.resolve("analysis.json")))
        .contains("\"chain\" : {", "\"lonefibre-chain-1\"");
    assertThat(Files.readString(out.resolve("report.html")))
        .contains("Test of the machine and its export", "Smallest measurable jitter", "signal.wav")
        .contains("they have another sampling rate");
    assertThat(Files.readString(out.resolve("report.html"))).doesNotContain("none was named");

    Path wrong = folder.resolve("wrong.json");
    Files.writeString(wrong, "{\"schema\": \"lonefibre-chain-1\", \"testedOn\": 7}");
    CommandRun refused =
        CommandRun.of(
            "analyse", sites.resolve("study.yaml"), "--chain-test", wrong, "--muscle", "ED");
    assertThat(refused.exitCode()).isEqualTo(2);
    assertThat(refused.errors()).hasLineCount(1).contains("wrong.json", "lonefibre-chain-1");
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
