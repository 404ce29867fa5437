package org.lonefibre.app.controls;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.lonefibre.app.CommandRun;

class ControlsCommandTest {

  @TempDir Path folder;

  private Path controls(int subjects, String again) throws IOException {
    Random random = new Random(3);
    StringBuilder text =
        new StringBuilder("subject,age_years,muscle,needle,activation,signal,jitter_us\n");
    for (int k = 0; k < subjects; k++) {
      double centre = 24 + 2 * random.nextGaussian();
      for (int s = 0; s < 20; s++) {
        text.append("V" + k + "," + (20 + k % 50) + ",ED,concentric-small,voluntary," + s + ",")
            .append(Math.max(8, centre + 5 * random.nextGaussian()))
            .append('\n');
      }
    }
    return Files.writeString(folder.resolve("controls.csv"), text + again);
  }

  @Test
  void limitsOfControlsAreShownWithIntervalsAndWrittenForUse() throws IOException {
    Path own = folder.resolve("own.csv");
    CommandRun run = CommandRun.of("controls", controls(45, ""), "--out", own);
    assertThat(run.errors()).isEmpty();
    assertThat(run.exitCode()).isZero();
    assertThat(run.output())
        .contains("extensor digitorum, concentric-small needle, voluntary: 45 subjects")
        .contains("too few: 120 needed")
        .contains("age 20 to under 30");
    assertThat(CommandRun.of("limits", "check", own).output()).contains("own-controls");
    assertThat(CommandRun.of("limits", "list", "--limits-file", own, "--muscle", "ED").output())
        .contains("the laboratory's own");
  }

  @Test
  void aSubjectTwiceAndTooFewAreOneLine() throws IOException {
    CommandRun twice =
        CommandRun.of("controls", controls(3, "V0,20,ED,concentric-small,voluntary,21,20\n"));
    assertThat(twice.exitCode()).isEqualTo(2);
    assertThat(twice.errors())
        .hasLineCount(1)
        .contains("line 62, subject")
        .contains("each subject");
    CommandRun few = CommandRun.of("controls", controls(12, ""), "--out", folder.resolve("o.csv"));
    assertThat(few.exitCode()).isEqualTo(2);
    assertThat(few.errors()).hasLineCount(1).contains("40 subjects or more");
    assertThat(folder.resolve("o.csv")).doesNotExist();
  }

  @Test
  void publishedLimitsAreVerifiedAndReferralsExtrapolated() throws IOException {
    Path file = controls(25, "");
    assertThat(CommandRun.of("controls", file, "--verify", "31,45").output())
        .contains("mean 31.0 us: 0 of 20 controls beyond: borne out");
    assertThat(CommandRun.of("controls", file, "--referrals").output())
        .contains("EXTRAPOLATED")
        .contains("not from healthy volunteers");
  }
}
