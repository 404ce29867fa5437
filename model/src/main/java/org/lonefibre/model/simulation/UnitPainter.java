package org.lonefibre.model.simulation;

import org.lonefibre.model.fibre.FibreGeometry;
import org.lonefibre.model.fibre.FibrePotential;
import org.lonefibre.model.motorunit.FibreScenario;
import org.lonefibre.model.motorunit.MotorUnitScenario;
import org.lonefibre.model.motorunit.UnitActivity;

/**
 * Adds a unit's potentials to a recording.
 *
 * <ul>
 *   <li>A fibre at or above the amplitude from which fibres are named is placed between samples,
 *       its steepest point as recorded at the arrival.
 *   <li>A fibre below is drawn more coarsely, and its wave passes the electrode at the arrival: the
 *       steepest point of what a distant fibre gives may be the start or end of its wave.
 * </ul>
 */
final class UnitPainter {

  private static final double STEP_US = 1;
  private static final double NEGLIGIBLE_UV = 0.02;
  private static final double COARSE_STEP_US = 10;
  private static final double COARSE_NEGLIGIBLE_UV = 0.05;
  private static final double CLEAR_MM = 0.005;

  private final Canvas canvas;
  private final FibreSource source;
  private final double highPassHz;
  private final double namedFromUv;
  private final MovementSettings movement;

  UnitPainter(Canvas canvas, FibreSource source, SimulationScenario scenario) {
    this.canvas = canvas;
    this.source = source;
    highPassHz = scenario.amplifier().highPassHz();
    namedFromUv = scenario.namedFromUv();
    movement = scenario.movement();
  }

  /** Adds all fibres and gives their amplitudes before the needle moves. */
  double[] paint(UnitActivity activity) {
    MotorUnitScenario unit = activity.scenario();
    double[] amplitudes = new double[unit.fibres().size()];
    for (int f = 0; f < amplitudes.length; f++) {
      FibreScenario fibre = unit.fibres().get(f);
      boolean named = namedFromUv == 0;
      if (!named) {
        amplitudes[f] = coarse(fibre).amplitudeUv();
        named = amplitudes[f] >= namedFromUv;
      }
      if (named) {
        FibrePotential potential = source.solve(fibre, STEP_US, NEGLIGIBLE_UV);
        amplitudes[f] = potential.amplitudeUv();
        paintNamed(f, activity, potential);
      } else {
        paintCoarse(f, activity);
      }
    }
    return amplitudes;
  }

  /** Adds only the fibres below the amplitude from which fibres are named. */
  void paintDistant(UnitActivity activity) {
    for (int f = 0; f < activity.scenario().fibres().size(); f++) {
      if (coarse(activity.scenario().fibres().get(f)).amplitudeUv() < namedFromUv) {
        paintCoarse(f, activity);
      }
    }
  }

  private FibrePotential coarse(FibreScenario fibre) {
    return source.solve(fibre, COARSE_STEP_US, COARSE_NEGLIGIBLE_UV);
  }

  private void paintNamed(int f, UnitActivity activity, FibrePotential unmoved) {
    FibreScenario fibre = activity.scenario().fibres().get(f);
    int at = -1;
    Template template = null;
    for (int i = 0; i < activity.discharges(); i++) {
      if (activity.present(f, i)) {
        int steps = movement.steps(activity.dischargeTimeS(i));
        if (template == null || steps != at) {
          at = steps;
          template =
              Template.ofPotential(
                  steps == 0 ? unmoved : source.solve(moved(fibre, steps), STEP_US, NEGLIGIBLE_UV),
                  highPassHz,
                  canvas.lowPassHz());
        }
        canvas.add(template, activity.arrivalTimeS(f, i));
      }
    }
  }

  private void paintCoarse(int f, UnitActivity activity) {
    FibreScenario fibre = activity.scenario().fibres().get(f);
    FibreGeometry geometry = fibre.geometry();
    double conductionUs = 1e3 * geometry.endPlateDistanceMm() / geometry.velocityMPerS();
    int at = -1;
    SampledTemplate template = null;
    for (int i = 0; i < activity.discharges(); i++) {
      if (activity.present(f, i)) {
        int steps = movement.steps(activity.dischargeTimeS(i));
        if (template == null || steps != at) {
          at = steps;
          template = canvas.sampled(coarse(moved(fibre, steps)), conductionUs);
        }
        canvas.add(template, activity.arrivalTimeS(f, i));
      }
    }
  }

  /** The fibre as the needle finds it after some steps. */
  private FibreScenario moved(FibreScenario fibre, int steps) {
    if (steps == 0) {
      return fibre;
    }
    FibreGeometry geometry = fibre.geometry();
    double turn = Math.toRadians(fibre.directionDeg());
    double out = geometry.distanceMm() * Math.cos(turn);
    double side = geometry.distanceMm() * Math.sin(turn) - steps * movement.stepUm() / 1000;
    double nearestMm = geometry.diameterUm() / 2000 + CLEAR_MM;
    double distanceMm = Math.max(nearestMm, Math.min(20, Math.hypot(out, side)));
    return fibre.withPlace(
        geometry.withDistanceMm(distanceMm), Math.toDegrees(Math.atan2(side, out)));
  }
}
