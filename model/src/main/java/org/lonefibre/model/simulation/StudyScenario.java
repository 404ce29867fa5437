package org.lonefibre.model.simulation;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.lonefibre.model.fibre.FibrePotentialSolver;
import org.lonefibre.model.tissue.Tissue;
import org.lonefibre.signal.random.RandomStream;

/**
 * Distributions from which the sites of a study are drawn.
 *
 * @param sites number of sites, 1 to 200
 * @param samplingRateHz of every recording
 * @param durationS of every recording
 * @param amplifier amplifier and converter, with the noise
 * @param background units far away
 * @param shapes family of shapes; the held-out family also has skewed end-plates
 * @param activation what makes the muscle active
 * @param extraUnitsRatio mean number of units (axons) near the electrode beyond the first, to one,
 *     0 to 3
 * @param endPlateDeviationUs median standard deviation of an end-plate's delay, 1 to 200 us
 * @param abnormalShareRatio share of end-plates of 2.3 times that deviation
 * @param blockingShareRatio share of end-plates that also block, 3 to 30 % of discharges
 * @param contaminationShareRatio share of sites with a second fibre 80 to 450 us from a potential
 * @param splitShareRatio share of sites with a split fibre
 */
public record StudyScenario(
    int sites,
    double samplingRateHz,
    double durationS,
    AmplifierSettings amplifier,
    BackgroundSettings background,
    ShapeFamily shapes,
    SimulatedActivation activation,
    double extraUnitsRatio,
    double endPlateDeviationUs,
    double abnormalShareRatio,
    double blockingShareRatio,
    double contaminationShareRatio,
    double splitShareRatio) {

  /** Refuses what lies outside the stated ranges. */
  public StudyScenario {
    if (sites < 1 || sites > 200) {
      throw new IllegalArgumentException("sites must be 1 to 200, found " + sites);
    }
    require("mean number of further units", extraUnitsRatio, 0, 3);
    require("median deviation of end-plates (us)", endPlateDeviationUs, 1, 200);
    require("share of abnormal end-plates", abnormalShareRatio, 0, 1);
    require("share of blocking end-plates", blockingShareRatio, 0, 1);
    require("share of contaminated sites", contaminationShareRatio, 0, 1);
    require("share of split fibres", splitShareRatio, 0, 1);
  }

  /**
   * 20 voluntary sites of 8 s at 50 kHz, healthy end-plates of 17 us (a pair gives 27 us, within
   * the 5 to 50 us of Thiele and Stalberg 1974, abstract), a tenth each abnormal, blocking and
   * contaminated: engineering choices.
   */
  public static StudyScenario defaults() {
    return new StudyScenario(
        20,
        50_000,
        8,
        AmplifierSettings.defaults(),
        BackgroundSettings.defaults(),
        ShapeFamily.CUBIC_POINT,
        SimulatedActivation.VOLUNTARY,
        0.5,
        17,
        0.1,
        0.1,
        0.1,
        0.03);
  }

  /** The held-out scenario: other shapes, other noise, other delays; everything else as usual. */
  public static StudyScenario heldOut() {
    return defaults().withShapes(ShapeFamily.QUARTIC_SURFACE);
  }

  /** Another number of sites. */
  public StudyScenario withSites(int newSites) {
    return copy(newSites, samplingRateHz, durationS, amplifier, background, shapes, activation);
  }

  /** Another sampling rate. */
  public StudyScenario withSamplingRateHz(double newSamplingRateHz) {
    return copy(sites, newSamplingRateHz, durationS, amplifier, background, shapes, activation);
  }

  /** Another duration. */
  public StudyScenario withDurationS(double newDurationS) {
    return copy(sites, samplingRateHz, newDurationS, amplifier, background, shapes, activation);
  }

  /** Another amplifier. */
  public StudyScenario withAmplifier(AmplifierSettings newAmplifier) {
    return copy(sites, samplingRateHz, durationS, newAmplifier, background, shapes, activation);
  }

  /** Another noise. */
  public StudyScenario withNoiseUv(double newNoiseUv) {
    return withAmplifier(amplifier.withNoiseUv(newNoiseUv));
  }

  /** Another background. */
  public StudyScenario withBackground(BackgroundSettings newBackground) {
    return copy(sites, samplingRateHz, durationS, amplifier, newBackground, shapes, activation);
  }

  /** Another family of shapes. */
  public StudyScenario withShapes(ShapeFamily newShapes) {
    return copy(sites, samplingRateHz, durationS, amplifier, background, newShapes, activation);
  }

  /** Another activation. */
  public StudyScenario withActivation(SimulatedActivation newActivation) {
    return copy(sites, samplingRateHz, durationS, amplifier, background, shapes, newActivation);
  }

  /** Another number of units beyond the first. */
  public StudyScenario withExtraUnitsRatio(double newExtraUnitsRatio) {
    return new StudyScenario(
        sites,
        samplingRateHz,
        durationS,
        amplifier,
        background,
        shapes,
        activation,
        newExtraUnitsRatio,
        endPlateDeviationUs,
        abnormalShareRatio,
        blockingShareRatio,
        contaminationShareRatio,
        splitShareRatio);
  }

  /** Another median deviation of end-plates. */
  public StudyScenario withEndPlateDeviationUs(double newEndPlateDeviationUs) {
    return new StudyScenario(
        sites,
        samplingRateHz,
        durationS,
        amplifier,
        background,
        shapes,
        activation,
        extraUnitsRatio,
        newEndPlateDeviationUs,
        abnormalShareRatio,
        blockingShareRatio,
        contaminationShareRatio,
        splitShareRatio);
  }

  /** Other shares of what is not healthy or not clean. */
  public StudyScenario withShares(
      double newAbnormalRatio,
      double newBlockingRatio,
      double newContaminationRatio,
      double newSplitRatio) {
    return new StudyScenario(
        sites,
        samplingRateHz,
        durationS,
        amplifier,
        background,
        shapes,
        activation,
        extraUnitsRatio,
        endPlateDeviationUs,
        newAbnormalRatio,
        newBlockingRatio,
        newContaminationRatio,
        newSplitRatio);
  }

  /**
   * Draws the sites. A site depends on the seed and its number alone, not on how many there are.
   */
  public StudyPlan draw(long seed) {
    FibrePotentialSolver solver = shapes.solver(Tissue.defaults());
    List<SimulationScenario> drawn = new ArrayList<>();
    for (int i = 0; i < sites; i++) {
      RandomStream stream = RandomStream.of(seed).child("site").child(i);
      SimulationScenario site =
          SimulationScenario.defaults()
              .withSite(String.format(Locale.ROOT, "site%02d", i + 1))
              .withSamplingRateHz(samplingRateHz)
              .withDurationS(durationS)
              .withAmplifier(amplifier)
              .withBackground(background)
              .withShapes(shapes)
              .withUnits(new SiteDraw(this, solver, stream).listUnits());
      drawn.add(
          activation == SimulatedActivation.STIMULATED
              ? site.withStimulation(stimulation(stream.child("stimulation")))
              : site);
    }
    return new StudyPlan(seed, shapes.recordedWith(), "extensor digitorum", activation, drawn);
  }

  private StimulationScenario stimulation(RandomStream stream) {
    double rateHz = 9 + 2 * stream.uniformProbability();
    int count = (int) Math.max(1, Math.floor((durationS - 0.2) * rateHz));
    return StimulationScenario.defaults().withTrain(rateHz, count);
  }

  private StudyScenario copy(
      int newSites,
      double newSamplingRateHz,
      double newDurationS,
      AmplifierSettings newAmplifier,
      BackgroundSettings newBackground,
      ShapeFamily newShapes,
      SimulatedActivation newActivation) {
    return new StudyScenario(
        newSites,
        newSamplingRateHz,
        newDurationS,
        newAmplifier,
        newBackground,
        newShapes,
        newActivation,
        extraUnitsRatio,
        endPlateDeviationUs,
        abnormalShareRatio,
        blockingShareRatio,
        contaminationShareRatio,
        splitShareRatio);
  }

  private static void require(String what, double value, double low, double high) {
    if (!(value >= low && value <= high)) {
      throw new IllegalArgumentException(
          what + " must be " + low + " to " + high + ", found " + value);
    }
  }
}
