package org.lonefibre.model.simulation;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.lonefibre.model.endplate.EndPlateSettings;
import org.lonefibre.model.fibre.FibrePotentialSolver;
import org.lonefibre.model.motorunit.FibreScenario;
import org.lonefibre.model.motorunit.FiringSettings;
import org.lonefibre.model.motorunit.MotorUnitScenario;
import org.lonefibre.model.tissue.Tissue;
import org.lonefibre.signal.random.RandomStream;

/**
 * Draws the sites of a study. What is not asked for draws no chance: nothing else changes by it.
 */
final class StudyDraw {

  private static final double FIRST_LATENCY_US = 3500;
  private static final double LATENCY_SPREAD_US = 6000;
  private static final double PAUSE_RATIO = 0.2;

  private final StudyScenario study;
  private final FibrePotentialSolver solver;

  StudyDraw(StudyScenario study) {
    this.study = study;
    solver = study.shapes().solver(Tissue.defaults());
  }

  SimulationScenario site(int number, RandomStream stream) {
    SimulationScenario site =
        SimulationScenario.defaults()
            .withSite(String.format(Locale.ROOT, "site%02d", number + 1))
            .withSamplingRateHz(study.samplingRateHz())
            .withDurationS(study.durationS())
            .withAmplifier(study.amplifier())
            .withBackground(study.background())
            .withShapes(study.shapes())
            .withMovement(study.movement());
    SampleMuscleUse use = study.sampleMuscleUse();
    List<MotorUnitScenario> muscle =
        use == SampleMuscleUse.NONE ? List.of() : muscle(stream.child("muscle"));
    site =
        use == SampleMuscleUse.WHOLE
            ? site.withUnits(muscle).withDistant(List.of(), study.namedFromUv())
            : site.withUnits(new SiteDraw(study, solver, stream).listUnits());
    if (use == SampleMuscleUse.BACKGROUND) {
      // Wished fibres are large enough to be named.
      site = site.withDistant(muscle, study.namedFromUv());
    }
    if (use != SampleMuscleUse.NONE) {
      site = site.withBackground(BackgroundSettings.none());
    }
    site = site.withUnits(unsteady(site.units(), stream.child("unsteady")));
    return study.activation() == SimulatedActivation.STIMULATED
        ? site.withStimulation(stimulation(site, stream.child("stimulation")))
        : site;
  }

  private List<MotorUnitScenario> muscle(RandomStream stream) {
    boolean voluntary = study.activation() == SimulatedActivation.VOLUNTARY;
    return study
        .shapes()
        .muscle(Tissue.defaults(), study.sampleMuscle())
        .listUnits(
            FiringSettings.defaults(),
            voluntary ? 0 : FIRST_LATENCY_US,
            voluntary ? 0 : LATENCY_SPREAD_US,
            stream);
  }

  private StimulationScenario stimulation(SimulationScenario site, RandomStream stream) {
    double rateHz = 9 + 2 * stream.uniformProbability();
    int count = (int) Math.max(1, Math.floor((study.durationS() - 0.2) * rateHz));
    StimulationScenario train = StimulationScenario.defaults().withTrain(rateHz, count);
    boolean near =
        study.stimulus().nearThresholdShareRatio() > 0
            && stream.child("near").happens(study.stimulus().nearThresholdShareRatio());
    return near
        ? train.withSubliminal(StimulationScenario.Subliminal.middleThird(site.units().get(0).id()))
        : train;
  }

  private List<MotorUnitScenario> unsteady(List<MotorUnitScenario> units, RandomStream stream) {
    boolean stimulated = study.activation() == SimulatedActivation.STIMULATED;
    if (study.activity().equals(ActivitySettings.steady())
        && !(stimulated && !study.stimulus().equals(StimulusSettings.defaults()))) {
      return units;
    }
    boolean direct =
        stimulated && stream.child("direct").happens(study.stimulus().directShareRatio());
    List<MotorUnitScenario> changed = new ArrayList<>();
    for (MotorUnitScenario unit : units) {
      RandomStream own = stream.child(unit.id());
      boolean isDirect = direct && changed.isEmpty();
      List<FibreScenario> fibres = new ArrayList<>();
      for (FibreScenario fibre : unit.fibres()) {
        fibres.add(fibre.withEndPlate(endPlate(fibre, isDirect, own.child(fibre.id()))));
      }
      double axonUs =
          isDirect ? 0 : stimulated ? study.stimulus().axonDeviationUs() : unit.axonDeviationUs();
      changed.add(
          new MotorUnitScenario(
              unit.id(), firing(unit.firing(), own), axonUs, unit.branches(), fibres));
    }
    return changed;
  }

  private EndPlateSettings endPlate(FibreScenario fibre, boolean isDirect, RandomStream own) {
    if (isDirect) {
      return EndPlateSettings.constant();
    }
    double recovery = study.activity().recoveryPerMsUs();
    return recovery == 0
        ? fibre.endPlate()
        : fibre
            .endPlate()
            .withRecoveryPerMsUs(Math.max(-50, Math.min(50, recovery * own.gaussianRatio())));
  }

  private FiringSettings firing(FiringSettings firing, RandomStream own) {
    ActivitySettings activity = study.activity();
    FiringSettings changed =
        firing
            .withDriftRatio(Math.min(0.5, firing.driftRatio() + activity.extraDriftRatio()))
            .withDoublets(activity.doubletProbability(), activity.doubletMs());
    RandomStream pauses = own.child("pause");
    if (!pauses.happens(activity.pauseShareRatio())) {
      return changed;
    }
    double lengthS = PAUSE_RATIO * study.durationS();
    double startS = (0.1 + 0.6 * pauses.uniformProbability()) * study.durationS();
    return changed.withPauses(List.of(new FiringSettings.Pause(startS, startS + lengthS)));
  }
}
