package org.lonefibre.app.density;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.Stream;
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
  void recordingsAreCountedByTheRuleAndNothingIsCountedThatIsNotThere() throws IOException {
    Path sites = folder.resolve("sites");
    assertThat(CommandRun.of("simulate", "--seed", "31", "--sites", "6", "--out", sites).exitCode())
        .isZero();
    List<Object> words = new ArrayList<>(List.of("density", "--needle", "single-fibre"));
    try (Stream<Path> all = Files.list(sites)) {
      all.filter(file -> file.toString().endsWith(".edf")).sorted().forEach(words::add);
    }
    CommandRun run = CommandRun.of(words.toArray());
    assertThat(run.errors()).isEmpty();
    assertThat(run.exitCode()).isZero();

    Path out = folder.resolve("out");
    assertThat(
            CommandRun.of("analyse", "--study", sites.resolve("study.yaml"), "--out", out)
                .exitCode())
        .isZero();
    ObjectMapper mapper = new ObjectMapper();
    JsonNode recordings =
        mapper.readTree(out.resolve("analysis.json").toFile()).at("/studies/0/recordings");
    JsonNode truth = mapper.readTree(sites.resolve("truth.json").toFile()).path("recordings");
    assertThat(recordings).hasSize(6);
    int sum = 0;
    for (int i = 0; i < 6; i++) {
      int counted = byRule(recordings.get(i));
      assertThat(run.output())
          .containsPattern("  " + recordings.get(i).path("site").asText() + ": " + counted + "\\b");
      assertThat(counted).isBetween(1, fibres(truth.get(i)));
      sum += counted;
    }
    assertThat(run.output())
        .contains(String.format(Locale.ROOT, "fibre density %.2f potentials", sum / 6.0))
        .contains("6 sites; 20 are usual", "rising too slowly");
    CommandRun again =
        CommandRun.of("density", out.resolve("analysis.json"), "--needle", "single-fibre");
    assertThat(again.output()).isEqualTo(run.output());
  }

  /** 200 uV and 300 us, within 4 ms of the largest, in the unit that has it. */
  private static int byRule(JsonNode recording) {
    double largestUv = 0;
    int count = 0;
    for (JsonNode unit : recording.path("motorUnits")) {
      List<JsonNode> counted = new ArrayList<>();
      JsonNode largest = null;
      for (JsonNode potential : unit.path("potentials")) {
        if (potential.path("amplitudeUv").asDouble() >= 200
            && potential.path("riseTimeUs").asDouble() <= 300) {
          counted.add(potential);
          boolean larger =
              largest == null
                  || potential.path("amplitudeUv").asDouble()
                      > largest.path("amplitudeUv").asDouble();
          largest = larger ? potential : largest;
        }
      }
      if (largest != null && largest.path("amplitudeUv").asDouble() > largestUv) {
        largestUv = largest.path("amplitudeUv").asDouble();
        double atMs = largest.path("offsetMs").asDouble();
        count =
            (int)
                counted.stream()
                    .filter(p -> Math.abs(p.path("offsetMs").asDouble() - atMs) <= 4)
                    .count();
      }
    }
    return count;
  }

  /** Fibres of the unit with the largest one. */
  private static int fibres(JsonNode recording) {
    double largestUv = 0;
    int fibres = 0;
    for (JsonNode unit : recording.path("motorUnits")) {
      for (JsonNode fibre : unit.path("fibres")) {
        if (fibre.path("amplitudeUv").asDouble() > largestUv) {
          largestUv = fibre.path("amplitudeUv").asDouble();
          fibres = unit.path("fibres").size();
        }
      }
    }
    return fibres;
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
