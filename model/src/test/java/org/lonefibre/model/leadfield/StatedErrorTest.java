package org.lonefibre.model.leadfield;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Map;
import java.util.Objects;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.lonefibre.model.electrode.Needle;
import org.lonefibre.model.electrode.Needles;
import org.lonefibre.model.electrode.Reference;
import org.lonefibre.model.electrode.Tip;

/**
 * The error that a field states is more than its real one, which is taken from what two finer
 * meshes point to. The whole table is in docs/needle.md.
 */
class StatedErrorTest {

  private static final double[] DISTANCES_MM = {0.02, 0.05, 0.1, 0.3, 1};

  private static Needle needle(String name) {
    return switch (name) {
      case "thin side-port" ->
          new Needle(name, 0.2, 15, new Tip.SidePort(10, 120, 1), Reference.CANNULA, Map.of());
      case "thick side-port" ->
          new Needle(name, 1.5, 30, new Tip.SidePort(50, 900, 5), Reference.CANNULA, Map.of());
      case "long bevel" ->
          new Needle(name, 0.3, 15, new Tip.Bevel(80, 25, 8), Reference.CANNULA, Map.of());
      case "broad ring" ->
          new Needle(name, 0.46, 15, new Tip.Bevel(80, 100, 15), Reference.CANNULA, Map.of());
      case "ring of 2 um" ->
          new Needle(name, 0.3, 15, new Tip.Bevel(80, 2, 15), Reference.CANNULA, Map.of());
      case "core of 10 um" ->
          new Needle(name, 0.6, 15, new Tip.Bevel(10, 25, 15), Reference.CANNULA, Map.of());
      case "tight port" ->
          new Needle(name, 0.5, 15, new Tip.SidePort(25, 30, 3), Reference.CANNULA, Map.of());
      case "bare point" ->
          new Needle(name, 0.4, 20, new Tip.Cone(20, 0.02), Reference.REMOTE, Map.of());
      case "slender point" ->
          new Needle(name, 0.4, 20, new Tip.Cone(10, 0.1), Reference.REMOTE, Map.of());
      case "blunt point" ->
          new Needle(name, 0.4, 20, new Tip.Cone(90, 0.1), Reference.REMOTE, Map.of());
      default -> Needles.builtIn(name);
    };
  }

  @ParameterizedTest
  @Tag("crossCheck")
  @CsvSource({
    "thin side-port, 0, 0",
    "thick side-port, 0, 0",
    "long bevel, 0, 0",
    "broad ring, 90, 0",
    "monopolar, 17, 0",
    "ring of 2 um, 45, 0",
    "core of 10 um, 0, 0",
    "tight port, 0, 0",
    "bare point, 0, 0",
    "slender point, 0, 0",
    "blunt point, 0, 0",
    "single-fibre, 80, 0",
    "single-fibre, 0, 1",
  })
  void isNotLessThanTheRealOne(String name, double angleDeg, double contactOhmM2) {
    LeadFieldSettings settings =
        LeadFieldSettings.defaults()
            .withAngleDeg(angleDeg)
            .withContacts(Contact.resistive(contactOhmM2), Contact.resistive(contactOhmM2));
    LeadFieldSolver solver = new LeadFieldSolver();
    SolvedNeedle solved = solver.solve(needle(name), settings);
    double[] fineness = angleDeg % 90 == 0 ? new double[] {1.3, 1.84} : new double[] {1.3, 1.8};
    SolvedNeedle fine = solver.solveOn(fineness[1], needle(name), settings);
    SolvedNeedle reference =
        fine.beyond(solver.solveOn(fineness[0], needle(name), settings), fine.report());
    double stated = Objects.requireNonNull(solved.report().refinementErrorRatio());
    assertThat(stated).isLessThanOrEqualTo(settings.accuracyRatio());
    assertThat(Math.abs(solved.coreToReferenceOhm() / reference.coreToReferenceOhm() - 1))
        .as("resistance")
        .isLessThan(stated);
    for (double distanceMm : DISTANCES_MM) {
      double expected = reference.leadOhm(0, distanceMm, 0)[0];
      assertThat(Math.abs(solved.leadOhm(0, distanceMm, 0)[0] / expected - 1))
          .as("lead at " + distanceMm + " mm")
          .isLessThan(stated);
    }
  }
}
