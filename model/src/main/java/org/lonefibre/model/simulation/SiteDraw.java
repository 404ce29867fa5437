package org.lonefibre.model.simulation;

import java.util.ArrayList;
import java.util.List;
import org.lonefibre.model.endplate.EndPlateSettings;
import org.lonefibre.model.fibre.FibrePotentialSolver;
import org.lonefibre.model.motorunit.FiringSettings;
import org.lonefibre.model.motorunit.MotorUnitScenario;
import org.lonefibre.signal.random.RandomStream;

/**
 * Draws the units of one site from the distributions of a study; all of them engineering choices.
 */
final class SiteDraw {

  private static final double APART_US = 550;
  private static final double SPAN_US = 2600;

  /** About 0.4 mm away: smaller potentials rise too slowly to be anyone's pair. */
  private static final double SMALLEST_UV = 350;

  private static final double FIRST_LATENCY_US = 3000;
  private static final double LATENCY_SPAN_US = 11_000;
  private static final double ABNORMAL_FACTOR = 2.3;

  private final StudyScenario study;
  private final FibrePotentialSolver solver;
  private final RandomStream stream;
  private final List<Double> takenUs = new ArrayList<>();

  SiteDraw(StudyScenario study, FibrePotentialSolver solver, RandomStream stream) {
    this.study = study;
    this.solver = solver;
    this.stream = stream;
  }

  List<MotorUnitScenario> listUnits() {
    SiteDraft draft = new SiteDraft(solver, stream.child("draft"));
    int units = 1 + Math.min(3, stream.child("units").poisson(study.extraUnitsRatio()));
    for (int u = 0; u < units; u++) {
      RandomStream own = stream.child("unit").child(u);
      draft.unit(firing(own.child("firing")));
      if (study.activation() == SimulatedActivation.VOLUNTARY) {
        takenUs.clear();
      }
      addFibres(draft, u, own);
    }
    return draft.listUnits();
  }

  private void addFibres(SiteDraft draft, int unit, RandomStream own) {
    boolean voluntary = study.activation() == SimulatedActivation.VOLUNTARY;
    double largestUv =
        unit == 0
            ? within(500, 6000, 1500 * StrictMath.exp(0.5 * own.gaussianRatio()))
            : within(400, 3000, 700 * StrictMath.exp(0.6 * own.gaussianRatio()));
    double chance = own.uniformProbability();
    int fibres = chance < 0.72 ? 2 : chance < 0.94 ? 3 : 4;
    if (!voluntary) {
      fibres = chance < 0.7 ? 1 : 2;
    }
    double firstUs = voluntary ? take(0) : freeLatencyUs(own.child("latency"));
    draft.fibre(largestUv, firstUs, endPlate(own.child("plate").child(0)));
    double lastUv = largestUv;
    double lastUs = firstUs;
    for (int f = 1; f < fibres; f++) {
      RandomStream fibre = own.child("fibre").child(f);
      lastUv =
          within(
              SMALLEST_UV,
              0.92 * largestUv,
              0.45 * largestUv * StrictMath.exp(0.5 * fibre.gaussianRatio()));
      lastUs = voluntary ? freeOffsetUs(fibre) : freeLatencyUs(fibre);
      draft.fibre(lastUv, lastUs, endPlate(own.child("plate").child(f)));
    }
    RandomStream extra = own.child("extra");
    boolean split = unit == 0 && extra.happens(study.splitShareRatio());
    boolean contaminated = unit == 0 && extra.happens(study.contaminationShareRatio());
    double apartUs = (extra.happens(0.5) ? 1 : -1) * (80 + 370 * extra.uniformProbability());
    double shareRatio = 0.15 + 0.75 * extra.uniformProbability();
    if (split) {
      draft.splitFibre(
          Math.max(SMALLEST_UV, 0.7 * lastUv),
          voluntary ? freeOffsetUs(extra) : freeLatencyUs(extra));
    }
    if (contaminated) {
      draft.fibre(shareRatio * lastUv, lastUs + apartUs, endPlate(own.child("plate").child(99)));
    }
  }

  private static FiringSettings firing(RandomStream stream) {
    return FiringSettings.defaults()
        .withRateHz(within(8, 16, 11 + 1.5 * stream.gaussianRatio()))
        .withVariationRatio(0.1 + 0.08 * stream.uniformProbability());
  }

  private EndPlateSettings endPlate(RandomStream own) {
    double deviationUs = study.endPlateDeviationUs() * StrictMath.exp(0.3 * own.gaussianRatio());
    boolean abnormal = own.happens(study.abnormalShareRatio());
    boolean blocking = own.happens(study.blockingShareRatio());
    double blockingProbability = 0.03 + 0.27 * own.uniformProbability();
    if (abnormal || blocking) {
      deviationUs *= ABNORMAL_FACTOR;
    }
    deviationUs = within(2, 120, deviationUs);
    EndPlateSettings settings =
        study.shapes().isHeldOut()
            ? EndPlateSettings.gamma(deviationUs)
            : EndPlateSettings.gaussian(deviationUs);
    return blocking ? settings.withBlockingProbability(blockingProbability) : settings;
  }

  private double freeOffsetUs(RandomStream own) {
    return free(own, -SPAN_US, 2 * SPAN_US);
  }

  private double freeLatencyUs(RandomStream own) {
    return free(own, FIRST_LATENCY_US, LATENCY_SPAN_US);
  }

  /** A place at least so far from all others; the least crowded of a hundred if there is none. */
  private double free(RandomStream own, double fromUs, double spanUs) {
    double best = fromUs;
    double bestRoom = -1;
    for (int attempt = 0; attempt < 100 && bestRoom < APART_US; attempt++) {
      double place = fromUs + spanUs * own.uniformProbability();
      double room = Double.MAX_VALUE;
      for (double taken : takenUs) {
        room = Math.min(room, Math.abs(taken - place));
      }
      if (room > bestRoom) {
        best = place;
        bestRoom = room;
      }
    }
    return take(best);
  }

  private double take(double placeUs) {
    takenUs.add(placeUs);
    return placeUs;
  }

  private static double within(double low, double high, double value) {
    return Math.max(low, Math.min(high, value));
  }
}
