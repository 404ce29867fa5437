package org.lonefibre.model.fibre;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.lonefibre.model.electrode.Needles;
import org.lonefibre.model.leadfield.LeadFieldSettings;
import org.lonefibre.model.leadfield.LeadFieldSolver;
import org.lonefibre.model.leadfield.LeadTable;
import org.lonefibre.model.leadfield.NeedleLead;
import org.lonefibre.model.leadfield.SolvedNeedle;
import org.lonefibre.model.tissue.Tissue;

/**
 * Single-fibre potentials of solved needles against the project's reference table: 55 um, 3.7 m/s,
 * L = 3.5 per mm; amplitude is maximum minus minimum, the high-pass has one pole.
 */
class NeedlePotentialSolverTest {

  private static final Map<String, SolvedNeedle> SOLVED = new ConcurrentHashMap<>();

  @ParameterizedTest
  @Tag("crossCheck")
  @CsvSource({
    "single-fibre, 0.1, 5096, 176, 4642, 164, 4118, 154",
    "single-fibre, 0.3, 635, 267, 567, 255, 505, 246",
    "concentric-standard, 0.1, 1312, 174, 1197, 160, 1066, 151",
    "concentric-standard, 0.3, 245, 260, 217, 248, 195, 240",
    "concentric-small, 0.1, 1463, 172, 1341, 159, 1197, 149",
    "concentric-small, 0.3, 215, 256, 190.6, 244, 171, 236"
  })
  void amplitudeAndRiseTimeAgreeWithTheReferenceTable(
      String name,
      double distanceMm,
      double raw,
      double rawUs,
      double half,
      double halfUs,
      double one,
      double oneUs) {
    double[][] expected = {{0, raw, rawUs}, {500, half, halfUs}, {1000, one, oneUs}};
    NeedlePotentialSolver solver = solver(name);
    for (double[] row : expected) {
      FibrePotential potential =
          solver.solve(
              FibreGeometry.defaults().withDistanceMm(distanceMm), 1, Pickup.filtered(row[0]));
      assertThat(potential.amplitudeUv())
          .as("amplitude through " + row[0] + " Hz")
          .isCloseTo(row[1], within(0.03 * row[1]));
      assertThat(potential.riseTimeUs())
          .as("rise time through " + row[0] + " Hz")
          .isCloseTo(row[2], within(Math.max(5, 0.02 * row[2])));
    }
  }

  @Test
  @Tag("property")
  void equalSolutionsAtSeveralFrequenciesAreOneSolution() {
    SolvedNeedle needle = solved("monopolar");
    NeedlePotentialSolver flat = solver("monopolar");
    NeedlePotentialSolver three =
        new NeedlePotentialSolver(
            Tissue.defaults(),
            NeedleResponse.over(new double[] {100, 1000, 10_000}, List.of(needle, needle, needle)),
            IntracellularPotential.defaults(),
            0);
    FibreGeometry geometry = FibreGeometry.defaults();
    double[] a = flat.solve(geometry, 2, Pickup.filtered(500)).copyUv();
    double[] b = three.solve(geometry, 2, Pickup.filtered(500)).copyUv();
    for (int i = 0; i < a.length; i++) {
      assertThat(b[i]).isCloseTo(a[i], within(1e-6));
    }
  }

  @Test
  @Tag("property")
  void slopesInOrderAreSlopesOneByOne() {
    NeedleLead lead = new NeedleLead(solved("single-fibre"), 0, NeedleLead.Part.REAL);
    double[] slopes = lead.slopesOhmPerMm(0.1, -20, 0.0137, 5000);
    double steepest = 0;
    double before = lead.leadOhm(0.1, -20 - 1e-4);
    for (int i = 0; i < slopes.length; i++) {
      double place = -20 + i * 0.0137;
      steepest = Math.max(steepest, Math.abs(slopes[i]));
      assertThat(slopes[i])
          .isCloseTo(lead.slopeOhmPerMm(0.1, place), within(1e-4 * Math.max(steepest, 1)));
      before = Math.max(before, lead.leadOhm(0.1, place));
    }
    double differenced = (lead.leadOhm(0.1, 0.1001) - lead.leadOhm(0.1, 0.0999)) / 0.0002;
    assertThat(lead.slopeOhmPerMm(0.1, 0.1))
        .isCloseTo(differenced, within(1e-4 * Math.abs(differenced)));
    assertThat(before).isCloseTo(lead.leadOhm(0.1, 0), within(0.01 * before));
  }

  @Test
  @Tag("property")
  void aTableOfDistancesGivesWhatEachDistanceGives() {
    SolvedNeedle needle = solved("concentric-small");
    FibrePotentialSolver table =
        new FibrePotentialSolver(
            Tissue.defaults(), new LeadTable(needle), IntracellularPotential.defaults());
    NeedlePotentialSolver exact = solver("concentric-small");
    for (double distanceMm : new double[] {0.033, 0.1, 0.47, 1.9}) {
      FibreGeometry geometry = FibreGeometry.defaults().withDistanceMm(distanceMm);
      double expected = exact.solve(geometry, 4, Pickup.raw()).amplitudeUv();
      assertThat(table.solve(geometry, 4, 0).amplitudeUv())
          .isCloseTo(expected, within(1e-3 * expected));
    }
  }

  @Test
  @Tag("property")
  void aCableOnlyTakesAway() {
    NeedlePotentialSolver solver = solver("single-fibre");
    FibreGeometry geometry = FibreGeometry.defaults();
    double free = solver.solve(geometry, 2, Pickup.raw()).amplitudeUv();
    double loaded = solver.solve(geometry, 2, new Pickup(Cable.defaults(), 0)).amplitudeUv();
    assertThat(loaded).isBetween(0.7 * free, 0.995 * free);
  }

  @Test
  @Tag("property")
  void aFibreBesideTheNeedleIsSeenAndOneInItIsRefused() {
    NeedleResponse response = NeedleResponse.flat(solved("single-fibre"));
    NeedlePotentialSolver beside =
        new NeedlePotentialSolver(
            Tissue.defaults(), response, IntracellularPotential.defaults(), 80);
    FibreGeometry geometry = FibreGeometry.defaults().withDistanceMm(0.3);
    double side = beside.solve(geometry, 4, Pickup.raw()).amplitudeUv();
    double front = solver("single-fibre").solve(geometry, 4, Pickup.raw()).amplitudeUv();
    assertThat(side).isBetween(0.05 * front, front);
    NeedlePotentialSolver behind =
        new NeedlePotentialSolver(
            Tissue.defaults(), response, IntracellularPotential.defaults(), 180);
    assertThatThrownBy(() -> behind.solve(geometry, 4, Pickup.raw()))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("0.3 mm");
  }

  @ParameterizedTest
  @Tag("property")
  @CsvSource({
    "single-fibre, 0, 90", "single-fibre, 0, -90", "single-fibre, 0, 180",
    "concentric-small, 0, -90", "single-fibre, 90, 180", "single-fibre, 45, 180",
    "concentric-standard, 30, 180"
  })
  void aFibreThatTouchesTheNeedleIsRefusedByName(String name, double angleDeg, double aroundDeg) {
    NeedlePotentialSolver solver = turned(name, angleDeg, aroundDeg);
    FibreGeometry geometry = FibreGeometry.defaults().withDistanceMm(0.2);
    assertThatThrownBy(() -> solver.solve(geometry, 4, Pickup.raw()))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContainingAll("0.2 mm from the core", "degrees", "touch or pass through");
  }

  @ParameterizedTest
  @Tag("property")
  @CsvSource({
    "single-fibre, 0, 80, 0.2", "single-fibre, 0, 90, 4", "single-fibre, 90, 0, 0.05",
    "single-fibre, 90, 90, 0.6", "single-fibre, 45, 0, 0.02", "concentric-small, 90, 0, 0.02"
  })
  void aFibreClearOfTheNeedleHasAFinitePotential(
      String name, double angleDeg, double aroundDeg, double distanceMm) {
    double amplitude =
        turned(name, angleDeg, aroundDeg)
            .solve(FibreGeometry.defaults().withDistanceMm(distanceMm), 4, Pickup.raw())
            .amplitudeUv();
    assertThat(amplitude).isBetween(1e-3, 1e5);
  }

  private static NeedlePotentialSolver turned(String name, double angleDeg, double aroundDeg) {
    SolvedNeedle needle =
        SOLVED.computeIfAbsent(
            name + angleDeg,
            n ->
                new LeadFieldSolver()
                    .solve(
                        Needles.builtIn(name),
                        LeadFieldSettings.defaults().withAngleDeg(angleDeg)));
    return new NeedlePotentialSolver(
        Tissue.defaults(),
        NeedleResponse.flat(needle),
        IntracellularPotential.defaults(),
        aroundDeg);
  }

  @Test
  @Tag("analytic")
  void thermalNoiseIsThatOfTheResistance() {
    SolvedNeedle needle = solved("single-fibre");
    double expected = 1e6 * Math.sqrt(4 * 1.380649e-23 * 310 * needle.coreToReferenceOhm() * 9500);
    assertThat(NeedleResponse.flat(needle).thermalNoiseUv(500, 10_000))
        .isCloseTo(expected, within(1e-6 * expected))
        .isCloseTo(5.4, within(0.1));
  }

  private static SolvedNeedle solved(String name) {
    return SOLVED.computeIfAbsent(
        name, n -> new LeadFieldSolver().solve(Needles.builtIn(n), LeadFieldSettings.defaults()));
  }

  private static NeedlePotentialSolver solver(String name) {
    return new NeedlePotentialSolver(
        Tissue.defaults(), NeedleResponse.flat(solved(name)), IntracellularPotential.defaults(), 0);
  }
}
