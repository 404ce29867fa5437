package org.lonefibre.model.simulation;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.lonefibre.model.endplate.EndPlateSettings;
import org.lonefibre.model.fibre.FibrePotentialSolver;
import org.lonefibre.model.motorunit.FiringSettings;
import org.lonefibre.model.tissue.Tissue;
import org.lonefibre.signal.random.RandomStream;

/**
 * A study of 20 sites by an invented laboratory, of nobody: extensor digitorum, voluntary, age 52.
 *
 * <ul>
 *   <li>Sites 6 and 15 hold composite potentials, sites 8, 12 and 17 block, site 10 is a split
 *       fibre (low jitter), site 14 a flip-flop, sites 4, 8, 12, 17 and 19 have raised jitter, site
 *       18 a velocity recovery; sites 5 and 11 hold two motor units near the electrode.
 *   <li>The needle is solved in muscle, ideal metal, every fibre straight before the core: solved
 *       once a run, which takes a few seconds.
 *   <li>At sites 4, 14, 17 and 18 the smaller fibre keeps 1.2 ms from the larger one: from 0.7 to
 *       0.95 ms the end of the larger wave ran into the beginning of the smaller one, and grading
 *       took the sum for two fibres.
 * </ul>
 */
public final class DemoStudy {

  /** Code of the invented subject. */
  public static final String SUBJECT = "DEMO-07";

  /** Name of the invented laboratory. */
  public static final String LABORATORY = "Invented laboratory";

  /** Age of the invented subject. */
  public static final int AGE_YEARS = 52;

  /** Side examined. */
  public static final String SIDE = "right";

  /** Needle whose settings and limits apply. */
  public static final String NEEDLE = "single-fibre";

  private static final long SEED = 5207;
  private static final ShapeFamily SHAPES = ShapeFamily.SOLVED_SINGLE_FIBRE;

  private DemoStudy() {}

  /** The study, ready to be recorded. */
  public static StudyPlan plan() {
    FibrePotentialSolver solver = SHAPES.solver(Tissue.defaults());
    List<SimulationScenario> sites = new ArrayList<>();
    for (int number = 1; number <= 20; number++) {
      RandomStream stream = RandomStream.of(SEED).child("site").child(number);
      SiteDraft draft = new SiteDraft(solver, stream.child("draft"));
      draft.unit(firing(stream.child("firing")));
      fill(draft, number);
      sites.add(
          SimulationScenario.defaults()
              .withSite(String.format(Locale.ROOT, "demo-site%02d", number))
              .withShapes(SHAPES)
              .withDurationS(8 + (number % 3) * 0.5)
              .withAmplifier(AmplifierSettings.defaults().withNoiseUv(7 + number % 4))
              .withBackground(BackgroundSettings.defaults().withUnits(3 + number % 4))
              .withUnits(draft.listUnits()));
    }
    return new StudyPlan(
        SEED, SHAPES.recordedWith(), "extensor digitorum", SimulatedActivation.VOLUNTARY, sites);
  }

  private static FiringSettings firing(RandomStream stream) {
    return FiringSettings.defaults()
        .withRateHz(9.5 + 2.5 * stream.uniformProbability())
        .withVariationRatio(0.10 + 0.06 * stream.uniformProbability());
  }

  private static EndPlateSettings still(double deviationUs) {
    return EndPlateSettings.gaussian(deviationUs);
  }

  /** Amplitudes in uV, offsets in us, deviations in us, site by site. */
  private static void fill(SiteDraft draft, int number) {
    switch (number) {
      case 1 -> draft.fibre(2100, 0, still(15)).fibre(900, 640, still(18));
      case 2 -> draft.fibre(1500, 0, still(19)).fibre(1100, -810, still(16));
      case 3 ->
          draft.fibre(2600, 0, still(14)).fibre(800, 720, still(20)).fibre(450, -980, still(17));
      case 4 -> draft.fibre(1800, 0, still(18)).fibre(700, 1260, still(52));
      case 5 ->
          draft
              .fibre(2300, 0, still(16))
              .fibre(1200, 530, still(19))
              .unit(FiringSettings.defaults().withRateHz(8.7))
              .fibre(420, 0, still(18));
      case 6 ->
          draft.fibre(1700, 0, still(17)).fibre(800, 1100, still(19)).fibre(440, 1300, still(22));
      case 7 -> draft.fibre(1300, 0, still(20)).fibre(900, 1480, still(15));
      case 8 ->
          draft.fibre(1900, 0, still(20)).fibre(850, 760, still(60).withBlockingProbability(0.12));
      case 9 -> draft.fibre(3200, 0, still(13)).fibre(1400, -620, still(18));
      case 10 -> draft.fibre(2000, 0, still(21)).splitFibre(1000, 830);
      case 11 ->
          draft
              .fibre(1600, 0, still(17))
              .fibre(750, 690, still(21))
              .unit(FiringSettings.defaults().withRateHz(12.3))
              .fibre(1000, 0, still(18))
              .fibre(520, -900, still(16));
      case 12 ->
          draft
              .fibre(2200, 0, still(24))
              .fibre(950, -1150, still(48).withBlockingProbability(0.05));
      case 13 -> draft.fibre(1250, 0, still(16)).fibre(600, 570, still(22));
      case 14 -> draft.fibre(1750, 0, still(11)).fibre(880, 1240, still(12).withFlipFlop(150, 0.3));
      case 15 ->
          draft.fibre(1450, 0, still(18)).fibre(720, -760, still(17)).fibre(270, -1010, still(24));
      case 16 ->
          draft.fibre(2700, 0, still(15)).fibre(1050, 1270, still(17)).fibre(720, -1210, still(18));
      case 17 -> draft.fibre(1850, 0, still(19)).fibre(820, 1180, EndPlateSettings.threshold(1.35));
      case 18 ->
          draft
              .fibre(2050, 0, still(18))
              .fibre(940, 2150, still(16).withRecoveryPerMsUs(2.2))
              .fibre(560, -1240, still(19));
      case 19 -> draft.fibre(1550, 0, still(30)).fibre(690, 620, still(38));
      default -> draft.fibre(2400, 0, still(17)).fibre(1300, -540, still(20));
    }
  }
}
