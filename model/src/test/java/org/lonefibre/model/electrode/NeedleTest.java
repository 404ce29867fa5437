package org.lonefibre.model.electrode;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.LinkedHashMap;
import java.util.Map;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

@Tag("contract")
class NeedleTest {

  @Test
  void eachNumberOfABuiltInNeedleHasASource() {
    for (String name : Needles.listNames()) {
      Map<String, String> fields = Needles.builtInFields(name);
      fields.keySet().stream()
          .filter(key -> !key.startsWith("source."))
          .filter(key -> !key.equals("name") && !key.equals("kind"))
          .forEach(key -> assertThat(fields).containsKey("source." + key));
      assertThat(Needles.builtIn(name).name()).isEqualTo(name);
    }
  }

  @Test
  void areasOfTheCoresAreThoseOfTheTrade() {
    assertThat(Needles.builtIn("concentric-standard").coreAreaMm2()).isCloseTo(0.068, within(5e-4));
    assertThat(Needles.builtIn("concentric-small").coreAreaMm2()).isCloseTo(0.0194, within(5e-4));
    assertThat(Needles.builtIn("monopolar").coreAreaMm2()).isBetween(0.15, 0.6);
  }

  @ParameterizedTest
  @CsvSource({
    "single-fibre, coreDiameterUm, 0.025, 5 to 500 um",
    "single-fibre, coreDiameterUm, 600, 5 to 500 um",
    "single-fibre, coreDiameterUm, 450, 5 to 400 um",
    "single-fibre, shaftDiameterMm, 500, 0.1 to 2 mm",
    "single-fibre, portDiameterUm, 0.3, 20 to 2000 um",
    "single-fibre, portDiameterUm, 490, 27.5 to 450 um",
    "single-fibre, portDiameterUm, 25, 27.5 to 450 um",
    "single-fibre, coreFromTipMm, 16, 0.35 to 14.45 mm",
    "single-fibre, coreFromTipMm, -1, 0.3 to 20 mm",
    "single-fibre, shaftLengthMm, NaN, 2 to 100 mm",
    "concentric-standard, coreDiameterUm, 450, 10 to 414 um",
    "concentric-standard, insulationThicknessUm, 0.03, 2 to 500 um",
    "concentric-standard, insulationThicknessUm, 200, 2 to 148.1 um",
    "concentric-standard, bevelDeg, 0.26, 8 to 75 degrees",
    "concentric-standard, shaftLengthMm, 2.2, 2.575 to 100 mm",
    "monopolar, exposedLengthMm, 9, 0.02 to 1.289 mm",
    "monopolar, reference, cannula, remote",
    "monopolar, coreDiameterUm, 25, left out",
    "single-fibre, bevelDeg, 15, left out",
    "single-fibre, kind, sideport, side-port",
    "single-fibre, coreDiameterUm, 25 um, a number alone"
  })
  void whatCannotBeMadeIsRefusedByName(String name, String key, String value, String allowed) {
    Map<String, String> fields = new LinkedHashMap<>(Needles.builtInFields(name));
    fields.put(key, value);
    assertThatThrownBy(() -> Needles.fromFields(fields))
        .isInstanceOfSatisfying(
            NeedleFault.class,
            fault -> {
              assertThat(fault.key()).isEqualTo(key);
              assertThat(fault.found()).isEqualTo(value);
              assertThat(fault.expected()).contains(allowed);
            });
  }

  @Test
  void aMissingKeyIsNamed() {
    Map<String, String> fields = new LinkedHashMap<>(Needles.builtInFields("single-fibre"));
    fields.remove("portDiameterUm");
    assertThatThrownBy(() -> Needles.fromFields(fields))
        .hasMessage("portDiameterUm must be given, found nothing");
  }

  @Test
  void surfacesOfOddNeedlesClose() {
    for (Tip tip :
        new Tip[] {
          new Tip.SidePort(5, 20, 0.31),
          new Tip.SidePort(100, 440, 5),
          new Tip.Bevel(10, 2, 8),
          new Tip.Bevel(400, 20, 75),
          new Tip.Bevel(100, 150, 30)
        }) {
      Needle needle = new Needle("odd", 0.5, 15, tip, Reference.CANNULA, Map.of());
      Surface half = NeedleMesh.half(needle, 0.5);
      assertThat(half.whole().triangles()).isEqualTo(2 * half.triangles());
    }
  }
}
