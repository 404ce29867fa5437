package org.lonefibre.model.simulation;

import java.util.ArrayList;
import java.util.List;
import org.lonefibre.model.endplate.EndPlateSettings;
import org.lonefibre.model.fibre.FibreGeometry;
import org.lonefibre.model.fibre.FibrePotential;
import org.lonefibre.model.fibre.FibrePotentialSolver;
import org.lonefibre.model.motorunit.FibreScenario;
import org.lonefibre.model.motorunit.FiringSettings;
import org.lonefibre.model.motorunit.MotorUnit;
import org.lonefibre.model.motorunit.MotorUnitScenario;
import org.lonefibre.signal.random.RandomStream;

/**
 * Draws distant units and adds them: fibres evenly spread over the ring between two distances, 50
 * um (SD 8) thick, end-plates 20 mm (SD 4) off, so that arrivals scatter by conduction.
 */
final class Background {

  /** Distant potentials are slow: a coarse grid holds them. */
  private static final double STEP_US = 5;

  private static final double NEGLIGIBLE_UV = 0.1;

  private final BackgroundSettings settings;
  private final FibrePotentialSolver solver;

  Background(BackgroundSettings settings, FibrePotentialSolver solver) {
    this.settings = settings;
    this.solver = solver;
  }

  void addTo(Canvas canvas, double durationS, double highPassHz, RandomStream stream) {
    for (int u = 0; u < settings.units(); u++) {
      RandomStream unitStream = stream.child(u);
      MotorUnitScenario unit = unit(u, unitStream.child("geometry"));
      Template[] templates = new Template[settings.fibresPerUnit()];
      for (int f = 0; f < templates.length; f++) {
        FibrePotential potential =
            solver.solve(unit.fibres().get(f).geometry(), STEP_US, NEGLIGIBLE_UV);
        templates[f] = Template.ofPotential(potential, highPassHz, canvas.lowPassHz());
      }
      canvas.add(templates, new MotorUnit(unit).fire(-0.05, durationS + 0.05, unitStream));
    }
  }

  private MotorUnitScenario unit(int number, RandomStream stream) {
    double rate =
        settings.lowestRateHz()
            + (settings.highestRateHz() - settings.lowestRateHz()) * stream.uniformProbability();
    double nearSquared = settings.nearestMm() * settings.nearestMm();
    double farSquared = settings.farthestMm() * settings.farthestMm();
    List<FibreScenario> fibres = new ArrayList<>();
    for (int f = 0; f < settings.fibresPerUnit(); f++) {
      double distance =
          Math.sqrt(nearSquared + (farSquared - nearSquared) * stream.uniformProbability());
      double diameter = Math.min(90, Math.max(25, 50 + 8 * stream.gaussianRatio()));
      double endPlate = Math.min(40, Math.max(5, 20 + 4 * stream.gaussianRatio()));
      FibreGeometry geometry =
          FibreGeometry.defaults()
              .withDiameterUm(diameter)
              .withDistanceMm(distance)
              .withEndPlateDistanceMm(endPlate);
      double offsetUs = 1e3 * endPlate / geometry.velocityMPerS();
      fibres.add(
          FibreScenario.of(
              "B" + number + "F" + f, geometry, offsetUs, EndPlateSettings.gaussian(18)));
    }
    return MotorUnitScenario.of("B" + number, FiringSettings.defaults().withRateHz(rate), fibres);
  }
}
