package org.lonefibre.model.fibre;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.List;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.lonefibre.model.electrode.Needles;
import org.lonefibre.model.fibre.ShoulderMap.Appearance;
import org.lonefibre.model.leadfield.LeadFieldSettings;
import org.lonefibre.model.leadfield.LeadFieldSolver;
import org.lonefibre.model.tissue.Tissue;
import org.lonefibre.signal.random.RandomStream;

class ShoulderMapTest {

  private static final Pickup PICKUP = Pickup.filtered(500);
  private static final FibreGeometry FIBRE = FibreGeometry.defaults();

  @SuppressWarnings("NullAway.Init")
  private static NeedlePotentialSolver solver;

  @BeforeAll
  static void solve() {
    solver =
        new NeedlePotentialSolver(
            Tissue.defaults(),
            NeedleResponse.flat(
                new LeadFieldSolver()
                    .solve(Needles.builtIn("single-fibre"), LeadFieldSettings.defaults())),
            IntracellularPotential.defaults(),
            0);
  }

  /**
   * The table does not tell its shape and level, and its arrivals are drawn: single cells differ
   * most where the shape matters most, about 100 and 200 us.
   */
  @Test
  @Tag("crossCheck")
  void theBiasIsThatOfTheReferenceTable() throws IOException {
    Wave wave = Wave.of(solver.solve(FIBRE, Wave.STEP_US, PICKUP), 1500, 2500);
    double[] own = ShoulderMap.jitters(20, RandomStream.of(1));
    double[] others = ShoulderMap.jitters(20, RandomStream.of(2));
    double sum = 0;
    List<String> rows = rows();
    for (String row : rows) {
      String[] cells = row.split(",");
      double ratio =
          ShoulderMap.biasRatio(
              wave,
              wave.times(Double.parseDouble(cells[0])),
              Double.parseDouble(cells[1]),
              own,
              others);
      double expected = Double.parseDouble(cells[2]);
      assertThat(ratio).as(row).isCloseTo(expected, within(0.3));
      sum += Math.abs(ratio - expected);
    }
    assertThat(rows).hasSize(24);
    assertThat(sum / rows.size()).isLessThan(0.06);
  }

  private static List<String> rows() throws IOException {
    try (InputStream in = ShoulderMapTest.class.getResourceAsStream("contamination_bias.csv")) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8)
          .lines()
          .filter(line -> !line.startsWith("#"))
          .toList();
    }
  }

  @Test
  @Tag("property")
  void aSecondFibreHidesNearShouldersFartherAndStandsAlone() {
    FallOff fallOff = new FallOff(solver, FIBRE, 4, PICKUP);
    ShoulderMap map =
        new ShoulderMap(
            solver,
            FIBRE,
            fallOff,
            PICKUP,
            20,
            new double[] {0.02, 0.5, 1},
            new double[] {-400, -200, 25, 200, 400},
            RandomStream.of(5));
    assertThat(map.sizes()).isEqualTo(3);
    assertThat(map.delays()).isEqualTo(5);
    for (int d = 0; d < map.delays(); d++) {
      assertThat(map.appearance(0, d)).isEqualTo(Appearance.HIDDEN);
      assertThat(map.biasRatio(0, d)).isCloseTo(1, within(0.03));
    }
    for (int s = 1; s < map.sizes(); s++) {
      assertThat(map.appearance(s, 0)).isEqualTo(Appearance.NOTCH);
      assertThat(map.appearance(s, 1)).isEqualTo(Appearance.SHOULDER);
      assertThat(map.appearance(s, 2)).isEqualTo(Appearance.HIDDEN);
      assertThat(map.appearance(s, 4)).isEqualTo(Appearance.NOTCH);
    }
    // Two equal fibres at once: the arrival is the mean of both, its jitter 1 / sqrt 2.
    assertThat(map.biasRatio(2, 2)).isCloseTo(Math.sqrt(0.5), within(0.05));
  }

  @Test
  @Tag("contract")
  void aJitterInOtherUnitsIsRefused() {
    FallOff fallOff = new FallOff(solver, FIBRE, 4, PICKUP);
    assertThatThrownBy(
            () ->
                new ShoulderMap(
                    solver,
                    FIBRE,
                    fallOff,
                    PICKUP,
                    0.02,
                    new double[] {1},
                    new double[] {0},
                    RandomStream.of(1)))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("1 to 200 us, found 0.02");
  }
}
