package org.lonefibre.validation.campaign;

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
import org.lonefibre.model.simulation.MovementSettings;
import org.lonefibre.model.simulation.RecordingSimulator;
import org.lonefibre.model.simulation.ShapeFamily;
import org.lonefibre.model.simulation.SimulatedRecording;
import org.lonefibre.model.simulation.SimulationScenario;
import org.lonefibre.model.tissue.Tissue;
import org.lonefibre.signal.random.RandomStream;

/**
 * Sites with several units, made hard on purpose. All sizes are engineering choices.
 *
 * @param name what is hard about them
 * @param units how many units
 * @param rateHz their mean rate, give or take a tenth
 * @param alikeRatio spread of the sizes of the units' largest potentials; small if they are alike
 * @param blockingProbability of every second potential but the largest of each unit
 * @param slipUm slip of the needle each second
 * @param pauses whether the second unit falls silent in between
 */
record UnitsSite(
    String name,
    int units,
    double rateHz,
    double alikeRatio,
    double blockingProbability,
    double slipUm,
    boolean pauses) {

  private static final double DURATION_S = 8;
  private static final double SMALLEST_UV = 350;

  /** The conditions of the page. */
  static List<UnitsSite> listAll() {
    return List.of(
        new UnitsSite("one unit, nothing hard", 1, 11, 0.5, 0, 0, false),
        new UnitsSite("three units", 3, 11, 0.5, 0, 0, false),
        new UnitsSite("three units, superpositions in 30 % of sweeps", 3, 36, 0.5, 0, 0, false),
        new UnitsSite("three units, largest potentials within 5 %", 3, 11, 0.03, 0, 0, false),
        new UnitsSite("three units, needle slips 4 um a second", 3, 11, 0.5, 0, 4, false),
        new UnitsSite("three units, one starts and stops", 3, 11, 0.5, 0, 0, true),
        new UnitsSite("three units, every second follower blocks 15 %", 3, 11, 0.5, 0.15, 0, false),
        new UnitsSite("all of it", 3, 36, 0.03, 0.15, 4, true));
  }

  SimulatedRecording simulate(RandomStream stream) {
    List<MotorUnitScenario> all = new ArrayList<>();
    double largestUv = between(stream.child("size"), 900, 2200);
    for (int u = 0; u < units; u++) {
      all.add(unit(u, largestUv, stream.child("unit").child(u)));
    }
    SimulationScenario site =
        SimulationScenario.defaults()
            .withSite("units")
            .withDurationS(DURATION_S)
            .withAmplifier(
                AmplifierSettings.defaults().withNoiseUv(between(stream.child("noise"), 6, 12)))
            .withBackground(BackgroundSettings.defaults().withUnits(3))
            .withMovement(slipUm == 0 ? MovementSettings.none() : new MovementSettings(slipUm, 1))
            .withUnits(all);
    return new RecordingSimulator().simulate(site, stream.child("recording"));
  }

  private MotorUnitScenario unit(int number, double largestUv, RandomStream own) {
    FiringSettings firing =
        FiringSettings.defaults()
            .withRateHz(rateHz * between(own.child("rate"), 0.9, 1.1))
            .withVariationRatio(between(own.child("variation"), 0.1, 0.17));
    if (pauses && number == 1) {
      firing = firing.withinS(0.2 * DURATION_S, 0.9 * DURATION_S);
      firing =
          firing.withPauses(List.of(new FiringSettings.Pause(0.45 * DURATION_S, 0.6 * DURATION_S)));
    }
    double sizeUv =
        Math.max(500, largestUv * StrictMath.exp(alikeRatio * own.child("size").gaussianRatio()));
    int fibres = own.child("fibres").happens(0.3) ? 3 : 2;
    double firstUs = between(own.child("first"), 500, 900);
    List<FibreScenario> list = new ArrayList<>();
    for (int f = 0; f < fibres; f++) {
      RandomStream fibre = own.child("fibre").child(f);
      double uv = f == 0 ? sizeUv : Math.max(SMALLEST_UV, sizeUv * between(fibre, 0.3, 0.8));
      double offsetUs = f == 0 ? 0 : f == 1 ? firstUs : -between(fibre.child("before"), 500, 1500);
      EndPlateSettings plate =
          EndPlateSettings.gaussian(between(fibre.child("plate"), 12, 25))
              .withBlockingProbability((f + number) % 2 == 1 && f > 0 ? blockingProbability : 0);
      list.add(fibre("U" + number + "F" + f, uv, offsetUs, plate, fibre));
    }
    return new MotorUnitScenario("U" + number, firing, 5, List.of(), list);
  }

  private static FibreScenario fibre(
      String id, double uv, double offsetUs, EndPlateSettings plate, RandomStream stream) {
    FibrePotentialSolver solver = ShapeFamily.CUBIC_POINT.solver(Tissue.defaults());
    FibreGeometry geometry =
        FibreGeometry.defaults().withDiameterUm(between(stream.child("diameter"), 45, 65));
    return FibreScenario.of(id, solver.atAmplitude(geometry, uv), offsetUs, plate)
        .withConductionDeviationUs(1);
  }

  private static double between(RandomStream stream, double low, double high) {
    return low + (high - low) * stream.uniformProbability();
  }
}
