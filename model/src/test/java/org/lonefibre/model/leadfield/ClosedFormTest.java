package org.lonefibre.model.leadfield;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.lonefibre.model.electrode.NeedleMesh;
import org.lonefibre.model.electrode.Needles;
import org.lonefibre.model.electrode.Region;
import org.lonefibre.model.electrode.Surface;
import org.lonefibre.model.electrode.TestSurfaces;
import org.lonefibre.model.tissue.Tissue;

/**
 * The boundary elements against fields known in closed form: lengths in mm, 0.1 S/m unless said,
 * values in kOhm.
 */
@Tag("analytic")
class ClosedFormTest {

  private static final Tissue EVEN = new Tissue(0.1, 0.1, 1);
  private static final double DISC = 0.0125;
  private static final double PLANE = 60_000 * DISC;

  @Test
  void aDiscOnAnInsulatingPlaneHasOneOverFourSA() {
    SolvedNeedle disc = disc(16, EVEN, Contact.IDEAL);
    assertThat(disc.coreToReferenceOhm() / 1000).isCloseTo(200, within(0.4));
  }

  @Test
  void itsCurrentCrowdsAtItsEdgeAsNewmanSays() {
    NeedleSystem system = system(drum(20, 20, 24), EVEN);
    Panels panels = panels(drum(20, 20, 24), EVEN);
    boolean[] core = system.where(Region.CORE);
    Layers unit =
        system.unit(system.system(Construction.METAL_CORE, Contact.IDEAL, Contact.IDEAL), core);
    double mean = system.current(unit, core)[0] / (Math.PI * DISC * DISC);
    for (double share : new double[] {0.3, 0.6, 0.8, 0.9}) {
      double sum = 0;
      double expected = 0;
      double area = 0;
      double ring = nearestRing(panels, core, share * DISC);
      for (int t = 0; t < core.length; t++) {
        double r = Math.hypot(panels.middle(t, 0), panels.middle(t, 2));
        if (core[t] && Math.abs(r - ring) < 0.03 * DISC) {
          boolean[] one = new boolean[core.length];
          one[t] = true;
          sum += system.current(unit, one)[0] / 2;
          expected += panels.area(t) * 0.5 / Math.sqrt(1 - r * r / (DISC * DISC)) * mean;
          area += panels.area(t);
        }
      }
      assertThat(area).isPositive();
      assertThat(sum / expected).isCloseTo(1, within(0.01));
    }
  }

  private static double nearestRing(Panels panels, boolean[] core, double wanted) {
    double best = 0;
    for (int t = 0; t < core.length; t++) {
      double r = Math.hypot(panels.middle(t, 0), panels.middle(t, 2));
      if (core[t] && Math.abs(r - wanted) < Math.abs(best - wanted)) {
        best = r;
      }
    }
    return best;
  }

  @Test
  void aDiscOnAPlaneWithFibresHasTheEllipticIntegral() {
    SolvedNeedle disc = disc(14, Tissue.defaults(), Contact.IDEAL);
    assertThat(disc.coreToReferenceOhm() / 1000).isCloseTo(201.191, within(0.4));
    assertLead(disc, 0.05, 21.8095, 0.002);
    assertLead(disc, 0.1, 11.0041, 0.002);
    assertLead(disc, 0.3, 3.67809, 0.002);
    assertLead(disc, 1, 1.10377, 0.002);
  }

  private static void assertLead(SolvedNeedle solved, double mm, double kiloohm, double bound) {
    assertThat(solved.leadOhm(0, mm, 0)[0] / 1000).isCloseTo(kiloohm, within(bound * kiloohm));
  }

  @ParameterizedTest
  @CsvSource({
    "0, .25",
    "0.01, .255577",
    "0.1, .291147",
    "1, .585920",
    "10, 3.452985",
    "100, 32.1011"
  })
  void aDiscWithContactHasTheLegendreSeries(double zeta, double expected) {
    SolvedNeedle disc = disc(14, EVEN, Contact.resistive(zeta * DISC / 1000 / 0.1));
    assertThat(disc.coreToReferenceOhm() / 1000 * 0.1 * DISC)
        .isCloseTo(expected, within(0.002 * expected));
  }

  @Test
  void aReactiveContactIsTheSameSeriesInComplexNumbers() {
    SolvedNeedle resistive = disc(8, EVEN, Contact.resistive(1e-6));
    SolvedNeedle nearly = disc(8, EVEN, new Contact(1e-6, -1e-9));
    assertThat(nearly.coreResistanceOhm())
        .isCloseTo(resistive.coreResistanceOhm(), within(1e-4 * nearly.coreResistanceOhm()));
    SolvedNeedle capacitive = disc(8, EVEN, new Contact(0, -1e-2));
    double areaM2 = Math.PI * DISC * DISC * 1e-6;
    assertThat(capacitive.coreReactanceOhm()).isCloseTo(-1e-2 / areaM2, within(0.01e-2 / areaM2));
  }

  @Test
  void aMetalBallHasOneOverFourPiSA() {
    SolvedNeedle ball = metal(TestSurfaces.ball(1, 44, 32, Region.CORE), EVEN, 0);
    assertThat(ball.coreToReferenceOhm() / 1000).isCloseTo(.795775, within(.0005 * .795775));
  }

  @ParameterizedTest
  @CsvSource({"0, .32571", "30, .35243", "45, .38918", "90, .55148"})
  void aMetalSpheroidInMuscleHasCarlsonsIntegral(double angleDeg, double expected) {
    Surface surface = TestSurfaces.spheroid(7.5, 0.25, 64, 16);
    SolvedNeedle solved = metal(surface, Tissue.defaults(), angleDeg);
    assertThat(solved.coreToReferenceOhm() / 1000).isCloseTo(expected, within(0.001 * expected));
  }

  @ParameterizedTest
  @CsvSource({"0.1, 1.76021", "0.5, 1.45069", "1, 1.30685", "5, 1.08839"})
  void anInsulatingBallRaisesThePotentialAtItsWall(double x, double expected) {
    Surface surface = TestSurfaces.crowdedBall(1, 36, 12, Region.INSULATION);
    Panels panels = panels(surface, EVEN);
    NeedleSystem system = system(surface, EVEN);
    Layers layers = withSource(system, Construction.EVEN_CORE, 0, 1 + x, 0);
    assertThat(atWall(panels, layers, 1) * 4 * Math.PI * 1e-4 * x)
        .isCloseTo(expected, within(0.003 * expected));
  }

  @ParameterizedTest
  @CsvSource({"0.1, 1.8499, .5358", "0.4, 1.6488, .5955", "1, 1.4625, .6773", "4, 1.1996, .8379"})
  void anInsulatingCylinderHasTheBesselSeries(double x, double wall, double farSide) {
    Surface surface = TestSurfaces.rod(0.25, 15, 34, 46);
    Panels panels = panels(surface, EVEN);
    NeedleSystem system = system(surface, EVEN);
    double distance = x * 0.25;
    Layers layers = withSource(system, Construction.EVEN_CORE, 0, 0.25 + distance, 0);
    double free = 1 / (4 * Math.PI * 1e-4 * distance);
    double freeFar = 1 / (4 * Math.PI * 1e-4 * (distance + 0.5));
    assertThat(atWall(panels, layers, 0.25) / free).isCloseTo(wall, within(0.005 * wall));
    assertThat(behind(panels, layers) / freeFar).isCloseTo(farSide, within(0.005 * farSide));
  }

  /** Potential at the wall on the y axis: of the triangles nearest to it. */
  private static double atWall(Panels panels, Layers layers, double y) {
    double nearest = Double.MAX_VALUE;
    double found = 0;
    for (int t = 0; t < panels.count(); t++) {
      double apart =
          Math.hypot(Math.hypot(panels.middle(t, 0), panels.middle(t, 1) - y), panels.middle(t, 2));
      if (apart < nearest) {
        nearest = apart;
        found = layers.potential(t);
      }
    }
    return found;
  }

  /** Potential opposite, at x = 0: a quadratic in x and in the turn through triangles around it. */
  private static double behind(Panels panels, Layers layers) {
    double[][] normal = new double[3][4];
    for (int t = 0; t < panels.count(); t++) {
      double x = panels.middle(t, 0);
      double y = panels.middle(t, 1);
      double turn = Math.atan2(panels.middle(t, 2), -y);
      if (Math.abs(x) < 0.2 && turn < 0.5 && y < 0) {
        double[] terms = {1, x * x, turn * turn, layers.potential(t)};
        for (int i = 0; i < 3; i++) {
          for (int j = 0; j < 4; j++) {
            normal[i][j] += terms[i] * terms[j];
          }
        }
      }
    }
    for (int i = 0; i < 3; i++) {
      for (int k = 0; k < 3; k++) {
        if (k != i) {
          double factor = normal[k][i] / normal[i][i];
          for (int j = i; j < 4; j++) {
            normal[k][j] -= factor * normal[i][j];
          }
        }
      }
    }
    return normal[0][3] / normal[0][0];
  }

  @ParameterizedTest
  @CsvSource({"0.5, .84762", "1, .91667", "2, .96667"})
  void aFloatingMetalBallActsAsItsImages(double x, double expected) {
    double potential = floating(0, 1 + x, 1 + x / 2);
    double free = 1 / (4 * Math.PI * 1e-4 * x / 2);
    assertThat(potential / free).isCloseTo(expected, within(0.003 * expected));
  }

  @ParameterizedTest
  @CsvSource({"0, 2.69806", "0.1, 2.88394", "1, 3.28057"})
  void aFloatingBallWithContactHasItsSeries(double zeta, double expected) {
    assertThat(floating(zeta, 1.5, 1.25) / 1000).isCloseTo(expected, within(0.002 * expected));
  }

  /**
   * Potential on the y axis, of a source on it, beside a ball of 1 mm that takes no net current.
   */
  private static double floating(double zeta, double sourceMm, double fieldMm) {
    Surface surface = TestSurfaces.ball(1, 40, 24, Region.CORE);
    Panels panels = panels(surface, EVEN);
    NeedleSystem system = system(surface, EVEN);
    BoundarySystem equation =
        system.system(Construction.METAL_CORE, Contact.resistive(zeta * 1e-3 / 0.1), Contact.IDEAL);
    boolean[] core = system.where(Region.CORE);
    Layers grounded = system.grounded(equation, new double[] {0, sourceMm, 0});
    Layers unit = system.unit(equation, core);
    double volts = -system.current(grounded, core)[0] / system.current(unit, core)[0];
    return 1 / (4 * Math.PI * 1e-4 * Math.abs(sourceMm - fieldMm))
        + grounded.at(panels, 0, fieldMm, 0)[0]
        + volts * unit.at(panels, 0, fieldMm, 0)[0];
  }

  @ParameterizedTest
  @CsvSource({"0.1, 9.95778", "0.3, 1.56591"})
  void aPointInAnInsulatedPortHasTheArcTangent(double height, double expected) {
    Surface surface =
        TestSurfaces.drum(0.15, 20 * 0.15, Region.INSULATION, Region.SHAFT, 18, 40, 14);
    Panels panels = panels(surface, EVEN);
    NeedleSystem system = system(surface, EVEN);
    Layers layers = withSource(system, Construction.METAL_SHAFT, 0, height, 0);
    assertThat(atWall(panels, layers, 0) / 1000).isCloseTo(expected, within(0.01 * expected));
  }

  @Test
  void aPointBeforeAnInsulatingPlaneIsDoubled() {
    Surface surface = TestSurfaces.drum(0.03, 60, Region.INSULATION, Region.INSULATION, 10, 30, 12);
    Layers layers = withSource(system(surface, EVEN), Construction.EVEN_CORE, 0, 0.1, 0);
    assertThat(atWall(panels(surface, EVEN), layers, 0) / 1000)
        .isCloseTo(15.9155, within(0.002 * 15.9155));
  }

  @ParameterizedTest
  @CsvSource({"0.1, 0, 5.51903", "0.3, 1, 1.04131"})
  void theStretchedMediumIsTheAnisotropicOne(double across, double along, double expected) {
    ScaledMedium medium = new ScaledMedium(Tissue.defaults(), 0);
    double[] place = medium.scaled(0, across, along);
    double distance = Math.hypot(Math.hypot(place[0], place[1]), place[2]);
    assertThat(1 / (4 * Math.PI * medium.meanSPerMm() * distance) / 1000)
        .isCloseTo(expected, within(1e-5));
  }

  @Test
  void refiningHalvesTheError() {
    double coarse = Math.abs(disc(6, EVEN, Contact.IDEAL).coreToReferenceOhm() - 200_000);
    double fine = Math.abs(disc(12, EVEN, Contact.IDEAL).coreToReferenceOhm() - 200_000);
    assertThat(fine).isLessThan(0.5 * coarse);
  }

  @Test
  void rowsOfTheDoubleLayerSumToMinusOneHalf() {
    for (String name : Needles.listNames()) {
      Surface half = NeedleMesh.half(Needles.builtIn(name), 0.7);
      assertThat(new Matrices(panels(half, Tissue.defaults())).rowSumError()).isLessThan(3e-4);
      ScaledMedium turned = new ScaledMedium(Tissue.defaults(), 30);
      assertThat(new Matrices(new Panels(half.whole(), turned)).rowSumError()).isLessThan(3e-4);
    }
  }

  private static Layers withSource(
      NeedleSystem system, Construction construction, double x, double y, double z) {
    BoundarySystem equation = system.system(construction, Contact.IDEAL, Contact.IDEAL);
    return system.grounded(equation, new double[] {x, y, z});
  }

  private static SolvedNeedle disc(int rings, Tissue tissue, Contact contact) {
    return system(drum(rings), tissue).solve(Construction.METAL_CORE, contact, Contact.IDEAL);
  }

  private static Surface drum(int rings) {
    return drum(rings, 8 * rings, Math.min(rings, 14));
  }

  private static Surface drum(int rings, int outwards, int sectors) {
    return TestSurfaces.drum(DISC, PLANE, Region.CORE, Region.INSULATION, rings, outwards, sectors);
  }

  private static SolvedNeedle metal(Surface surface, Tissue tissue, double angleDeg) {
    ScaledMedium medium = new ScaledMedium(tissue, angleDeg);
    Panels panels = new Panels(medium.mirrorsZ() ? surface : surface.whole(), medium);
    return new NeedleSystem(panels, medium, 1)
        .solve(Construction.METAL_CORE, Contact.IDEAL, Contact.IDEAL);
  }

  private static NeedleSystem system(Surface surface, Tissue tissue) {
    return new NeedleSystem(panels(surface, tissue), new ScaledMedium(tissue, 0), 1);
  }

  private static Panels panels(Surface surface, Tissue tissue) {
    return new Panels(surface, new ScaledMedium(tissue, 0));
  }
}
