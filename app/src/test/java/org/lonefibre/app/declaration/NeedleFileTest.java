package org.lonefibre.app.declaration;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.lonefibre.app.terminal.InputFault;
import org.lonefibre.model.electrode.Needle;
import org.lonefibre.model.electrode.Needles;

@Tag("contract")
class NeedleFileTest {

  private static final String GOOD =
      "name: thin\nkind: side-port\nshaftDiameterMm: 0.4\nshaftLengthMm: 12\ncoreDiameterUm: 25\n"
          + "portDiameterUm: 200\ncoreFromTipMm: 3\nreference: cannula\n"
          + "source: {coreDiameterUm: measured}\n";

  @Test
  void builtInNeedlesReadAsYamlAsTheyReadAsProperties(@TempDir Path folder) throws IOException {
    for (String name : Needles.listNames()) {
      Path file = folder.resolve(name + ".yaml");
      try (InputStream in = Needles.class.getResourceAsStream(name + ".yaml")) {
        assertThat(in).isNotNull();
        Files.copy(in, file);
      }
      assertThat(NeedleFile.read(file)).isEqualTo(Needles.builtIn(name));
    }
  }

  @Test
  void aFileIsRead(@TempDir Path folder) throws IOException {
    Path file = Files.writeString(folder.resolve("thin.yaml"), GOOD);
    Needle needle = NeedleFile.find(file.toString());
    assertThat(needle.name()).isEqualTo("thin");
    assertThat(needle.kind()).isEqualTo("side-port");
    assertThat(needle.sources()).containsEntry("coreDiameterUm", "measured");
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "coreDiameterUm: 25 | coreDiameterUm: 0.025 | coreDiameterUm, line 5: expected 5 to 500 um",
        "coreDiameterUm: 25 | coreDiameterUm: 450 | coreDiameterUm, line 5: expected 5 to 320 um",
        "coreFromTipMm: 3 | coreFromTipMm: 15 | coreFromTipMm, line 7: expected 0.24 to 11.6 mm",
        "coreFromTipMm: 3 | coreFromTip: 3 | coreFromTipMm: expected given, found nothing",
        "kind: side-port | kind: bevel | insulationThicknessUm: expected given",
        "reference: cannula | reference: ear | reference, line 8: expected cannula or remote",
        "coreFromTipMm: 3 | coreFromTipMm: [3] | expected one value, found a list",
        "coreFromTipMm: 3 | coreFromTipMm: 3 mm | expected a number alone"
      })
  void whatCannotBeMadeIsRefusedWithItsPlace(
      String good, String bad, String expected, @TempDir Path folder) throws IOException {
    Path file = Files.writeString(folder.resolve("bad.yaml"), GOOD.replace(good, bad));
    assertThatThrownBy(() -> NeedleFile.read(file))
        .isInstanceOf(InputFault.class)
        .hasMessageStartingWith("bad.yaml: ")
        .hasMessageContaining(expected);
  }
}
