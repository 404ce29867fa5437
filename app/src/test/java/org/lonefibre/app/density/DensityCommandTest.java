package org.lonefibre.app.density;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.lonefibre.app.CommandRun;

class DensityCommandTest {

  @TempDir Path folder;

  @Test
  void densityHasAnIntervalNoLimitAndLeavesOutSelectedSites() throws IOException {
    Path file = sites("1,1,random\n2,2,random\n3,1,random\n4,3,jitter\n");
    CommandRun run = CommandRun.of("density", file, "--needle", "single-fibre");
    assertThat(run.exitCode()).isZero();
    assertThat(run.output())
        .contains("fibre density 1.33 potentials a site, 3 sites, 95 % interval 1.00 to 2.77")
        .contains("chosen for jitter: 1")
        .contains("no limit is applied");
  }

  @Test
  void anotherNeedleOrASiteTwiceIsOneLine() throws IOException {
    Path file = sites("1,1,random\n1,2,random\n");
    CommandRun twice = CommandRun.of("density", file, "--needle", "single-fibre");
    assertThat(twice.exitCode()).isEqualTo(2);
    assertThat(twice.errors()).hasLineCount(1).contains("sites.csv: line 3, site");
    CommandRun needle = CommandRun.of("density", file, "--needle", "concentric-small");
    assertThat(needle.exitCode()).isEqualTo(2);
    assertThat(needle.errors()).hasLineCount(1).contains("single-fibre");
  }

  private Path sites(String lines) throws IOException {
    return Files.writeString(folder.resolve("sites.csv"), "site,potentials,chosen\n" + lines);
  }
}
