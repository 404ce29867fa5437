package org.lonefibre.model.motorunit;

import java.util.ArrayList;
import java.util.List;
import org.lonefibre.model.endplate.EndPlateSettings;
import org.lonefibre.model.fibre.FibreGeometry;

/** Makes a motor unit of placed fibres: arrivals scatter by place of the end-plate and velocity. */
final class UnitOfFibres {

  private static final double AXON_DEVIATION_US = 5;
  private static final double CONDUCTION_DEVIATION_US = 1;

  private final SampleMuscleSettings settings;
  private final double meanUs;

  UnitOfFibres(SampleMuscleSettings settings, double meanUs) {
    this.settings = settings;
    this.meanUs = meanUs;
  }

  MotorUnitScenario scenario(String id, FiringSettings firing, List<PlacedFibre> placed) {
    FibreGeometry usual =
        FibreGeometry.defaults()
            .withDiameterUm(settings.diameterUm())
            .withEndPlateDistanceMm(settings.endPlateDistanceMm());
    EndPlateSettings endPlate =
        EndPlateSettings.gaussian(settings.jitterUs())
            .withBlockingProbability(settings.blockingProbability());
    List<FibreScenario> fibres = new ArrayList<>();
    for (PlacedFibre fibre : placed) {
      double offsetUs = meanUs + conductionUs(fibre.geometry()) - conductionUs(usual);
      fibres.add(
          FibreScenario.of(id + "F" + (fibres.size() + 1), fibre.geometry(), offsetUs, endPlate)
              .withConductionDeviationUs(CONDUCTION_DEVIATION_US)
              .withPlace(
                  fibre.geometry(), Math.toDegrees(Math.atan2(fibre.sideMm(), fibre.outMm()))));
    }
    return MotorUnitScenario.of(id, firing, fibres).withAxonDeviationUs(AXON_DEVIATION_US);
  }

  private static double conductionUs(FibreGeometry geometry) {
    return 1e3 * geometry.endPlateDistanceMm() / geometry.velocityMPerS();
  }
}
