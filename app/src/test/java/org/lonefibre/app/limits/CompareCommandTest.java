package org.lonefibre.app.limits;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.lonefibre.app.CommandRun;

class CompareCommandTest {

  @TempDir Path folder;

  @Test
  void everySetThatHoldsSaysWhatItWouldAndAnOwnOneBesideThem() throws IOException {
    Path recordings = folder.resolve("recordings");
    assertThat(
            CommandRun.of(
                    "simulate", "--out", recordings, "--seed", 4, "--sites", 2, "--duration-s", 8)
                .errors())
        .doesNotContain("fault of Lonefibre");
    Path recording;
    try (var files = Files.list(recordings)) {
      recording =
          files.filter(f -> f.toString().endsWith(".edf")).sorted().findFirst().orElseThrow();
    }
    Path own =
        Files.writeString(
            folder.resolve("own.csv"),
            "set_id,set_name,muscle,needles,activation,centre_statistic,centre_limit_us,"
                + "individual_limit_us,source\n"
                + "own-lab-1,ours,frontalis,single-fibre,voluntary,mean,5,6,own controls\n");
    Path out = folder.resolve("out");
    CommandRun run =
        CommandRun.of(
            "analyse",
            recording,
            "--muscle",
            "frontalis",
            "--age",
            44,
            "--needle",
            "single-fibre",
            "--activation",
            "voluntary",
            "--limits-file",
            own,
            "--limits",
            "own-lab-1",
            "--out",
            out);
    assertThat(run.exitCode()).isZero();
    assertThat(run.output())
        .contains("set own-lab-1")
        .contains("the laboratory's own")
        .contains("so far,")
        .contains("otherwise, limit set sf-voluntary-1992");
    CommandRun compare =
        CommandRun.of("limits", "compare", out.resolve("analysis.json"), "--limits-file", own);
    assertThat(compare.exitCode()).isZero();
    assertThat(compare.output())
        .contains("own-lab-1")
        .contains("sf-voluntary-1992")
        .contains("not to be mixed");
    assertThat(
            CommandRun.of("analyse", recording, "--limits", "own-lab-9", "--muscle", "frontalis")
                .exitCode())
        .isEqualTo(2);
  }
}
