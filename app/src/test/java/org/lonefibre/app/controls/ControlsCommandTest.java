package org.lonefibre.app.controls;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.lonefibre.app.CommandRun;

class ControlsCommandTest {

  private static final String OTHER_GRADING = "grading.longestRiseUs: 280\n";

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
  void keptStudiesOfVolunteersCountOnceEachAndOnlyAsThisGradingAcceptedThem() throws IOException {
    Path sites = folder.resolve("sites");
    assertThat(CommandRun.of("simulate", "--seed", "9", "--sites", "3", "--out", sites).exitCode())
        .isZero();
    Path data = folder.resolve("data");
    List<Path> files;
    try (Stream<Path> all = Files.list(sites)) {
      files = all.filter(file -> file.toString().endsWith(".edf")).sorted().toList();
    }
    List<Double> means = new ArrayList<>();
    for (int k = 0; k < 3; k++) {
      means.add(keep(data, files.get(k), "V" + k, "--healthy-volunteer"));
    }
    keep(data, files.get(2), "V0", "--healthy-volunteer");
    keep(data, files.get(1), "P7");
    Path other = Files.writeString(folder.resolve("other.yaml"), OTHER_GRADING);
    keep(data, files.get(0), "V4", "--healthy-volunteer", "--settings", other.toString());

    CommandRun run = CommandRun.of("controls", "--kept", "--data", data);
    assertThat(run.errors()).isEmpty();
    double mean = means.stream().mapToDouble(m -> m).average().orElseThrow();
    double squares = means.stream().mapToDouble(m -> (m - mean) * (m - mean)).sum();
    assertThat(run.output())
        .contains("extensor digitorum, single-fibre needle, voluntary: 3 subjects")
        .contains("the subject counts with its first examination")
        .containsPattern("left out: V4.*: accepted by grading [^,]+, not ")
        .doesNotContain("P7")
        .containsPattern(
            String.format(
                Locale.ROOT, "mean +mean \\+ 2 SD +%.1f ", mean + 2 * Math.sqrt(squares / 2)));
    CommandRun both = CommandRun.of("controls", files.get(0), "--kept", "--data", data);
    assertThat(both.exitCode()).isEqualTo(2);
    assertThat(both.errors()).hasLineCount(1).contains("--kept");
    CommandRun notKept = CommandRun.of("analyse", files.get(0), "--healthy-volunteer");
    assertThat(notKept.exitCode()).isEqualTo(2);
    assertThat(notKept.errors()).hasLineCount(1).contains("--keep");
  }

  /** Keeps a study and says the mean jitter of its measured signals. */
  private double keep(Path data, Path file, String subject, String... more) throws IOException {
    Path out = folder.resolve("out");
    List<Object> words =
        new ArrayList<>(
            List.of(
                "analyse",
                file,
                "--subject",
                subject,
                "--age",
                "30",
                "--muscle",
                "ED",
                "--needle",
                "single-fibre",
                "--activation",
                "voluntary",
                "--keep",
                "--data",
                data,
                "--out",
                out));
    words.addAll(List.of(more));
    CommandRun run = CommandRun.of(words.toArray());
    assertThat(run.exitCode()).as(run.errors()).isZero();
    double sum = 0;
    int count = 0;
    for (JsonNode unit :
        new ObjectMapper()
            .readTree(out.resolve("analysis.json").toFile())
            .at("/studies/0/recordings/0/motorUnits")) {
      for (JsonNode pair : unit.path("pairs")) {
        if (pair.path("status").asText().equals("measured")) {
          sum += pair.path("jitterUs").asDouble();
          count++;
        }
      }
    }
    return sum / count;
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
