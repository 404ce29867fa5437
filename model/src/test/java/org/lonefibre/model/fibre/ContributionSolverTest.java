package org.lonefibre.model.fibre;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.lonefibre.model.electrode.Needle;
import org.lonefibre.model.electrode.Needles;
import org.lonefibre.model.leadfield.LeadFieldSettings;
import org.lonefibre.model.leadfield.LeadFieldSolver;

@Tag("property")
class ContributionSolverTest {

  @Test
  void factorsMultiplyToTheTotalAndSayWhatEachPartDoes() {
    Needle needle = Needles.builtIn("single-fibre");
    LeadFieldSettings settings = LeadFieldSettings.defaults();
    LeadFieldSolver solver = new LeadFieldSolver();
    Pickup pickup = new Pickup(Cable.defaults(), 1000);
    NeedleResponse response = NeedleResponse.flat(solver.solve(needle, settings));
    ContributionSolver contributions =
        new ContributionSolver(
            needle,
            settings,
            response,
            IntracellularPotential.defaults(),
            FibreGeometry.defaults(),
            pickup,
            2,
            solver);
    for (double distanceMm : new double[] {0.05, 0.3}) {
      Contribution c = contributions.at(distanceMm);
      double product =
          c.pointUv()
              * c.averagingRatio()
              * c.insulationRatio()
              * c.metalRatio()
              * c.cannulaRatio()
              * c.contactRatio()
              * c.cableRatio()
              * c.filterRatio();
      assertThat(product).isCloseTo(c.totalUv(), within(1e-9 * c.totalUv()));
      assertThat(c.averagingRatio()).isCloseTo(1, within(0.03));
      assertThat(c.insulationRatio()).isBetween(1.1, 2.0);
      assertThat(c.metalRatio()).isCloseTo(1, within(0.03));
      assertThat(c.cannulaRatio()).isBetween(0.3, 1.0);
      assertThat(c.contactRatio()).isCloseTo(1, within(1e-6));
      assertThat(c.cableRatio()).isBetween(0.7, 0.999);
    }
    // "A 1 kHz high-pass costs all three needles 18 to 19 % of a near potential."
    NeedlePotentialSolver whole =
        new NeedlePotentialSolver(
            settings.tissue(), response, IntracellularPotential.defaults(), 0);
    FibreGeometry near = FibreGeometry.defaults().withDistanceMm(0.1);
    double kept =
        whole.solve(near, 1, Pickup.filtered(1000)).amplitudeUv()
            / whole.solve(near, 1, Pickup.raw()).amplitudeUv();
    assertThat(kept).isBetween(0.80, 0.83);
  }

  @Test
  void reachIsWhereTheFallOffCrosses() {
    LeadFieldSettings settings = LeadFieldSettings.defaults();
    NeedleResponse response =
        NeedleResponse.flat(new LeadFieldSolver().solve(Needles.builtIn("single-fibre"), settings));
    NeedlePotentialSolver solver =
        new NeedlePotentialSolver(
            settings.tissue(), response, IntracellularPotential.defaults(), 0);
    FallOff fallOff = new FallOff(solver, FibreGeometry.defaults(), 4, Pickup.filtered(500));
    double reachMm = fallOff.distanceAt(200).orElseThrow();
    assertThat(reachMm).isBetween(0.35, 0.55);
    assertThat(
            solver
                .solve(FibreGeometry.defaults().withDistanceMm(reachMm), 4, Pickup.filtered(500))
                .amplitudeUv())
        .isCloseTo(200, within(10.0));
    assertThat(fallOff.distanceAt(1e6)).isEmpty();
  }
}
