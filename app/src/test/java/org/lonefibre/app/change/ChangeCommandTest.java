package org.lonefibre.app.change;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.lonefibre.app.CommandRun;

/** An examination before and one after, from recordings to the sentence. */
@Tag("endToEnd")
class ChangeCommandTest {

  @TempDir Path folder;

  @Test
  void theChangeIsThatOfTheMeansAndWhatChangedBesideItIsSaid() throws IOException {
    Path before = analysed("before", 41, "A-3", "date: 2026-02-03, medication: none");
    Path after =
        analysed(
            "after", 42, "A-3", "date: 2026-03-03, temperatureDegC: 34, medication: 'pill, 08:00'");
    CommandRun run = CommandRun.of("change", before, after);
    assertThat(run.errors()).isEmpty();
    assertThat(run.exitCode()).isZero();
    double change = meanUs(after) - meanUs(before);
    assertThat(run.output())
        .contains(String.format(Locale.ROOT, "mean jitter changed by %+.1f us", change))
        .contains(
            "2026-02-03", "2026-03-03", "34.0 degC", "medication pill, 08:00", "95 % interval");
    CommandRun back = CommandRun.of("change", after, before);
    assertThat(back.output())
        .contains(String.format(Locale.ROOT, "mean jitter changed by %+.1f us", -change));

    Path other = analysed("other", 41, "B-4", "date: 2026-02-03");
    CommandRun refused = CommandRun.of("change", before, other);
    assertThat(refused.exitCode()).isEqualTo(2);
    assertThat(refused.errors()).hasLineCount(1).contains("one subject code in both", "B-4");
  }

  private Path analysed(String name, int seed, String subject, String visit) throws IOException {
    Path sites = folder.resolve(name);
    CommandRun simulated =
        CommandRun.of("simulate", "--seed", seed, "--sites", "3", "--out", sites);
    assertThat(simulated.exitCode()).as(simulated.errors()).isZero();
    Path study = sites.resolve("study.yaml");
    Files.writeString(
        study,
        Files.readString(study)
                .replaceFirst("subject: \\{code: [^,}]+", "subject: {code: " + subject)
            + "visit: {"
            + visit
            + "}\n");
    CommandRun run = CommandRun.of("analyse", "--study", study, "--side", "left", "--out", sites);
    assertThat(run.exitCode()).as(run.errors()).isZero();
    return sites.resolve("analysis.json");
  }

  private static double meanUs(Path analysis) throws IOException {
    double sum = 0;
    int count = 0;
    for (JsonNode recording :
        new ObjectMapper().readTree(analysis.toFile()).at("/studies/0/recordings")) {
      for (JsonNode unit : recording.path("motorUnits")) {
        for (JsonNode pair : unit.path("pairs")) {
          if (pair.path("status").asText().equals("measured")) {
            sum += pair.path("jitterUs").asDouble();
            count++;
          }
        }
      }
    }
    assertThat(count).isGreaterThan(1);
    return sum / count;
  }
}
