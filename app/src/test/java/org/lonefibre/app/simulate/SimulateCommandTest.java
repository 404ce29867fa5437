package org.lonefibre.app.simulate;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.lonefibre.app.CommandRun;
import org.lonefibre.model.motorunit.SampleMuscleSettings;
import org.lonefibre.model.simulation.StudyScenario;

@Tag("contract")
class SimulateCommandTest {

  @TempDir private Path folder;

  @Test
  void aScenarioTooLargeForMemorySaysSoBeforeItStarts() throws Exception {
    Path scenario = folder.resolve("large.yaml");
    Files.writeString(
        scenario,
        "sites: 200\nsamplingRateHz: 500000\ndurationS: 3600\nshapes: solved-single-fibre\n");
    Path out = folder.resolve("out");
    long start = System.nanoTime();
    CommandRun run = CommandRun.of("simulate", "--scenario", scenario, "--out", out);
    assertThat(run.exitCode()).isEqualTo(2);
    assertThat(run.errors().strip())
        .contains("memory", "MB, which are free", "200 sites of 3600 s at 500000 Hz", "-Xmx")
        .doesNotContain("\n");
    assertThat(out).doesNotExist();
    assertThat(System.nanoTime() - start).as("nothing was solved").isLessThan(3_000_000_000L);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "samplingRateHz: 1000000; durationS: 3600 | at most 2000000000 samples a site",
        "samplingRateHz: 50 | samplingRateHz, line 1: expected",
        "durationS: 8000 | durationS must be 0.1 to 3600.0, found 8000.0",
        "amplifier.noiseUv: -3 | amplifier.noiseUv, line 1: expected",
        "sampleMuscle.diameterUm: 0.055 | diameter must be 20.0 to 90.0 um, found 0.055",
        "sampelMuscle.diameterUm: 55 | sampelMuscle"
      })
  void aScenarioThatCannotBeIsRefusedInOneLine(String text, String expected) throws Exception {
    Path scenario = folder.resolve("bad.yaml");
    Files.writeString(scenario, text.replace("; ", "\n") + "\n");
    CommandRun run =
        CommandRun.of("simulate", "--scenario", scenario, "--out", folder.resolve("o"));
    assertThat(run.exitCode()).isEqualTo(2);
    assertThat(run.errors().strip()).contains(expected).doesNotContain("\n");
  }

  @Test
  void theEstimateGrowsWithWhatIsAskedFor() {
    StudyScenario usual = StudyScenario.defaults();
    long one = usual.neededBytes(2);
    assertThat(usual.withDurationS(80).neededBytes(2)).isGreaterThan(one);
    assertThat(usual.withSites(40).neededBytes(2)).isGreaterThan(one);
    assertThat(usual.neededBytes(8)).isGreaterThan(one);
    assertThat(StudyScenario.ofMuscle(SampleMuscleSettings.healthy()).neededBytes(2))
        .isBetween(one, 1_000_000_000L);
  }
}
