package org.lonefibre.app.declaration;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.lonefibre.analysis.reference.LimitSettings.MemoryRows;
import org.lonefibre.analysis.study.SettingsStamp;
import org.lonefibre.app.terminal.InputFault;
import org.lonefibre.model.simulation.StudyScenario;

@Tag("contract")
final class SettingsTest {

  @TempDir private Path folder = Path.of("");

  private SettingsChanges changes(String text) throws IOException {
    return SettingsFile.read(Files.writeString(folder.resolve("lab.yaml"), text));
  }

  private static SettingsStamp stamp(String needle, SettingsChanges changes) throws InputFault {
    return SettingsInForce.stamp(Map.of(needle, SettingsInForce.of(needle, changes)));
  }

  @Test
  void everySettingHasAValueAndASource() throws InputFault {
    List<SettingsStamp.Entry> entries =
        SettingsInForce.of("single-fibre", SettingsChanges.NONE).listEntries();
    assertThat(entries).hasSizeGreaterThan(20);
    assertThat(entries)
        .allSatisfy(
            entry -> {
              assertThat(entry.name()).matches("[a-z]+(\\.[a-zA-Z0-9]+)+");
              assertThat(entry.value()).isNotBlank();
              assertThat(entry.source()).isNotBlank();
            });
    assertThat(entries.stream().map(SettingsStamp.Entry::name)).doesNotHaveDuplicates();
  }

  @Test
  void whatIsPrintedReadsBackAndChangesNothing() throws IOException {
    StringBuilder printed = new StringBuilder();
    for (SettingsStamp.Entry entry :
        SettingsInForce.of("single-fibre", SettingsChanges.NONE).listEntries()) {
      printed.append(entry.name()).append(": ").append(entry.value()).append("  # source\n");
    }
    assertThat(stamp("single-fibre", changes(printed.toString())).hash())
        .isEqualTo(stamp("single-fibre", SettingsChanges.NONE).hash());
  }

  @Test
  void aChangeNamesWhoWantedItAndChangesTheHash() throws IOException {
    SettingsChanges changes = changes("conditioning:\n  highPassHz: 700\nstudy.closeCallUs: 1\n");
    SettingsInForce settings = SettingsInForce.of("single-fibre", changes);
    assertThat(settings.analysis().conditioning().highPassHz()).isEqualTo(700);
    assertThat(settings.study().closeCallUs()).isEqualTo(1);
    assertThat(settings.listEntries())
        .contains(
            new SettingsStamp.Entry("conditioning.highPassHz", "700.0", "set in lab.yaml"),
            new SettingsStamp.Entry("study.closeCallUs", "1.0", "set in lab.yaml"));
    assertThat(stamp("single-fibre", changes).hash())
        .isNotEqualTo(stamp("single-fibre", SettingsChanges.NONE).hash());
  }

  @Test
  void limitsFromMemoryAreTurnedOnByAPerson() throws IOException {
    SettingsChanges changes = changes("limits.memoryRows: confirmed\n");
    assertThat(SettingsInForce.of(null, changes).limits().memoryRows())
        .isEqualTo(MemoryRows.CONFIRMED);
  }

  @Test
  void needlesWithDifferentSettingsAreListedApart() throws InputFault {
    Map<String, SettingsInForce> byNeedle = new LinkedHashMap<>();
    byNeedle.put("single-fibre", SettingsInForce.of("single-fibre", SettingsChanges.NONE));
    byNeedle.put("monopolar", SettingsInForce.of("monopolar", SettingsChanges.NONE));
    SettingsStamp stamp = SettingsInForce.stamp(byNeedle);
    assertThat(stamp.entries().stream().map(SettingsStamp.Entry::name))
        .contains("conditioning.highPassHz[single-fibre]", "conditioning.highPassHz[monopolar]")
        .doesNotContain("conditioning.highPassHz")
        .contains("conditioning.order");
    assertThat(stamp.hash()).matches("[0-9a-f]{64}");
  }

  @Test
  void unknownNamesWrongKindsAndImpossibleValuesAreRefused() {
    assertThatThrownBy(() -> changes("conditioning.higPassHz: 500\n"))
        .isInstanceOf(InputFault.class)
        .hasMessageContaining("line 1")
        .hasMessageContaining("perhaps conditioning.highPassHz is meant");
    assertThatThrownBy(() -> changes("conditioning.highPassHz: much\n"))
        .isInstanceOf(InputFault.class)
        .hasMessageContaining("must be a number, found much");
    assertThatThrownBy(() -> changes("conditioning.mainsRemoval: hz-55\n"))
        .hasMessageContaining("off, hz-50, hz-60");
    assertThatThrownBy(() -> SettingsInForce.of(null, changes("conditioning.highPassHz: 20000\n")))
        .isInstanceOf(InputFault.class)
        .hasMessageContaining("set in lab.yaml")
        .hasMessageContaining("found 20000");
  }

  @Test
  void aScenarioKeepsWhatIsNotNamed() throws IOException {
    Path file =
        Files.writeString(
            folder.resolve("scenario.yaml"), "sites: 3\namplifier:\n  noiseUv: 12.5\n");
    StudyScenario scenario = ScenarioFile.read(file, StudyScenario.defaults());
    assertThat(scenario).isEqualTo(StudyScenario.defaults().withSites(3).withNoiseUv(12.5));
    Files.writeString(file, "sites: 300\n");
    assertThatThrownBy(() -> ScenarioFile.read(file, StudyScenario.defaults()))
        .isInstanceOf(InputFault.class)
        .hasMessageContaining("1 to 200, found 300");
    Files.writeString(file, "shapes: solved-single-fibre\nsampleMuscle:\n  diameterUm: 0.055\n");
    assertThatThrownBy(() -> ScenarioFile.read(file, StudyScenario.defaults()))
        .isInstanceOf(InputFault.class)
        .hasMessageContaining("sampleMuscle.diameterUm, line 3")
        .hasMessageContaining("20.0 to 90.0 um, found 0.055");
    Files.writeString(file, "amplifier.noise: 3\n");
    assertThatThrownBy(() -> ScenarioFile.read(file, StudyScenario.defaults()))
        .hasMessageContaining("perhaps amplifier.noiseUv is meant");
  }
}
