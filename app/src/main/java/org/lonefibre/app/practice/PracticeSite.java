package org.lonefibre.app.practice;

import java.util.ArrayList;
import java.util.List;
import org.lonefibre.model.endplate.EndPlateSettings;
import org.lonefibre.model.fibre.FibreGeometry;
import org.lonefibre.model.fibre.FibrePotentialSolver;
import org.lonefibre.model.motorunit.FibreScenario;
import org.lonefibre.model.motorunit.FiringSettings;
import org.lonefibre.model.motorunit.MotorUnitScenario;
import org.lonefibre.model.simulation.AmplifierSettings;
import org.lonefibre.model.simulation.BackgroundSettings;
import org.lonefibre.model.simulation.ShapeFamily;
import org.lonefibre.model.simulation.SimulationScenario;
import org.lonefibre.model.tissue.Tissue;
import org.lonefibre.signal.random.RandomStream;

/** A site in the making: a large trigger, and the fibres of the potential to be judged. */
final class PracticeSite {

  static final String TRIGGER = "trigger";
  static final String FILE = "practice";
  private static final double DURATION_S = 10;

  private final RandomStream stream;
  private final FibrePotentialSolver solver = ShapeFamily.CUBIC_POINT.solver(Tissue.defaults());
  private final List<FibreScenario> fibres = new ArrayList<>();

  PracticeSite(RandomStream stream) {
    this.stream = stream;
    fibre(TRIGGER, between("size", 1300, 2600), 0, EndPlateSettings.gaussian(15));
  }

  /** A number between two, the same for every call with the same name. */
  double between(String name, double low, double high) {
    return low + (high - low) * stream.child(name).uniformProbability();
  }

  /** The first fibre of the potential. */
  PracticeSite follower(EndPlateSettings endPlate) {
    return fibre("first", between("late size", 450, 1000), lateUs(), endPlate);
  }

  /** A second one by a share of its size. */
  PracticeSite beside(double sizeRatio, double delayUs, EndPlateSettings endPlate) {
    return fibre(
        "second", sizeRatio * between("late size", 450, 1000), lateUs() + delayUs, endPlate);
  }

  private double lateUs() {
    return between("late", 900, 1600);
  }

  private PracticeSite fibre(
      String id, double amplitudeUv, double offsetUs, EndPlateSettings endPlate) {
    FibreGeometry geometry =
        FibreGeometry.defaults().withDiameterUm(between(id + " diameter", 45, 65));
    fibres.add(
        FibreScenario.of(id, solver.atAmplitude(geometry, amplitudeUv), offsetUs, endPlate)
            .withConductionDeviationUs(1));
    return this;
  }

  SimulationScenario scenario() {
    return SimulationScenario.defaults()
        .withSite(FILE)
        .withDurationS(DURATION_S)
        .withAmplifier(AmplifierSettings.defaults().withNoiseUv(between("noise", 6, 12)))
        .withBackground(BackgroundSettings.defaults().withUnits((int) between("background", 2, 6)))
        .withUnits(
            List.of(
                MotorUnitScenario.of(
                        "U1",
                        FiringSettings.defaults()
                            .withRateHz(between("rate", 9.5, 12.5))
                            .withVariationRatio(between("variation", 0.1, 0.16)),
                        fibres)
                    .withAxonDeviationUs(5)));
  }
}
