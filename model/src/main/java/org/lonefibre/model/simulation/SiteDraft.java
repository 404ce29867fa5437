package org.lonefibre.model.simulation;

import java.util.ArrayList;
import java.util.List;
import org.lonefibre.model.endplate.EndPlateSettings;
import org.lonefibre.model.fibre.FibreGeometry;
import org.lonefibre.model.fibre.FibrePotentialSolver;
import org.lonefibre.model.motorunit.FibreScenario;
import org.lonefibre.model.motorunit.FiringSettings;
import org.lonefibre.model.motorunit.MotorUnitScenario;
import org.lonefibre.signal.random.RandomStream;

/**
 * A site in the making: fibres are wished for by amplitude and offset; diameter and end-plate are
 * drawn, the distance is the one that gives the amplitude.
 */
final class SiteDraft {

  private final FibrePotentialSolver solver;
  private final RandomStream stream;
  private final List<MotorUnitScenario> units = new ArrayList<>();
  private final List<FibreScenario> fibres = new ArrayList<>();
  private FiringSettings firing = FiringSettings.defaults();

  SiteDraft(FibrePotentialSolver solver, RandomStream stream) {
    this.solver = solver;
    this.stream = stream;
  }

  /** Starts a unit. */
  SiteDraft unit(FiringSettings newFiring) {
    closeUnit();
    firing = newFiring;
    return this;
  }

  /** Adds a fibre to the unit. */
  SiteDraft fibre(double amplitudeUv, double offsetUs, EndPlateSettings endPlate) {
    RandomStream own = stream.child(units.size()).child(fibres.size());
    double diameter = Math.min(80, Math.max(35, 55 + 7 * own.gaussianRatio()));
    double endPlateMm = Math.min(40, Math.max(8, 20 + 5 * own.gaussianRatio()));
    FibreGeometry geometry =
        FibreGeometry.defaults().withDiameterUm(diameter).withEndPlateDistanceMm(endPlateMm);
    String id = unitId() + "F" + (fibres.size() + 1);
    fibres.add(
        FibreScenario.of(id, solver.atAmplitude(geometry, amplitudeUv), offsetUs, endPlate)
            .withConductionDeviationUs(1));
    return this;
  }

  /** Adds a fibre that shares the end-plate of the last one. */
  SiteDraft splitFibre(double amplitudeUv, double offsetUs) {
    FibreScenario parent = fibres.get(fibres.size() - 1);
    fibre(amplitudeUv, offsetUs, parent.endPlate());
    int last = fibres.size() - 1;
    fibres.set(last, fibres.get(last).withEndPlateId(parent.endPlateId()));
    return this;
  }

  List<MotorUnitScenario> listUnits() {
    closeUnit();
    return units;
  }

  private String unitId() {
    return "U" + (units.size() + 1);
  }

  private void closeUnit() {
    if (!fibres.isEmpty()) {
      units.add(MotorUnitScenario.of(unitId(), firing, fibres).withAxonDeviationUs(5));
      fibres.clear();
    }
  }
}
