package org.lonefibre.model.simulation;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.lonefibre.model.motorunit.SampleMuscleSettings;
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
 * @param sampleMuscleUse what comes from a sample muscle about a solved needle
 * @param sampleMuscle that muscle
 * @param namedFromUv amplitude from which a fibre of the sample muscle is named in the truth, 1 to
 *     1,000 uV
 * @param activity what units do beyond firing steadily
 * @param stimulus what goes wrong under stimulation
 * @param movement of the needle
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
    double splitShareRatio,
    SampleMuscleUse sampleMuscleUse,
    SampleMuscleSettings sampleMuscle,
    double namedFromUv,
    ActivitySettings activity,
    StimulusSettings stimulus,
    MovementSettings movement) {

  /** A tenth of the smallest potential taken: below it nothing contaminates. */
  private static final double NAMED_FROM_UV = 20;

  /** Samples of a site lie in one array. */
  private static final double MOST_SAMPLES = 2e9;

  /** Refuses what lies outside the stated ranges. */
  public StudyScenario {
    if (sites < 1 || sites > 200) {
      throw new IllegalArgumentException("sites must be 1 to 200, found " + sites);
    }
    require("samplingRateHz", samplingRateHz, 1000, 1_000_000);
    require("durationS", durationS, 0.1, 3600);
    if (samplingRateHz * durationS > MOST_SAMPLES) {
      throw new IllegalArgumentException(
          String.format(
              Locale.ROOT,
              "samplingRateHz times durationS must be at most %.0f samples a site, found %.0f",
              MOST_SAMPLES,
              samplingRateHz * durationS));
    }
    require("mean number of further units", extraUnitsRatio, 0, 3);
    require("median deviation of end-plates (us)", endPlateDeviationUs, 1, 200);
    require("share of abnormal end-plates", abnormalShareRatio, 0, 1);
    require("share of blocking end-plates", blockingShareRatio, 0, 1);
    require("share of contaminated sites", contaminationShareRatio, 0, 1);
    require("share of split fibres", splitShareRatio, 0, 1);
    require("namedFromUv", namedFromUv, 1, 1000);
    if (sampleMuscleUse != SampleMuscleUse.NONE && !shapes.isSolved()) {
      throw new IllegalArgumentException(
          "sampleMuscleUse "
              + sampleMuscleUse
              + " needs a solved needle: shapes SOLVED_SINGLE_FIBRE, SOLVED_CONCENTRIC_SMALL or"
              + " SOLVED_CONCENTRIC_STANDARD, found "
              + shapes);
    }
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
        0.03,
        SampleMuscleUse.NONE,
        SampleMuscleSettings.healthy(),
        NAMED_FROM_UV,
        ActivitySettings.steady(),
        StimulusSettings.defaults(),
        MovementSettings.none());
  }

  /** Every fibre from a sample muscle about the solved single-fibre needle. */
  public static StudyScenario ofMuscle(SampleMuscleSettings muscle) {
    return defaults()
        .withShapes(ShapeFamily.SOLVED_SINGLE_FIBRE)
        .withSampleMuscle(SampleMuscleUse.WHOLE, muscle);
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
        splitShareRatio,
        sampleMuscleUse,
        sampleMuscle,
        namedFromUv,
        activity,
        stimulus,
        movement);
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
        splitShareRatio,
        sampleMuscleUse,
        sampleMuscle,
        namedFromUv,
        activity,
        stimulus,
        movement);
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
        newSplitRatio,
        sampleMuscleUse,
        sampleMuscle,
        namedFromUv,
        activity,
        stimulus,
        movement);
  }

  /** What comes from a sample muscle, and which; needs a solved needle. */
  public StudyScenario withSampleMuscle(SampleMuscleUse newUse, SampleMuscleSettings newMuscle) {
    return copy(newUse, newMuscle, activity, stimulus, movement);
  }

  /** Other doings of units. */
  public StudyScenario withActivity(ActivitySettings newActivity) {
    return copy(sampleMuscleUse, sampleMuscle, newActivity, stimulus, movement);
  }

  /** Other faults of stimulation. */
  public StudyScenario withStimulus(StimulusSettings newStimulus) {
    return copy(sampleMuscleUse, sampleMuscle, activity, newStimulus, movement);
  }

  /** Another movement of the needle. */
  public StudyScenario withMovement(MovementSettings newMovement) {
    return copy(sampleMuscleUse, sampleMuscle, activity, stimulus, newMovement);
  }

  /**
   * Draws the sites. A site depends on the seed and its number alone, not on how many there are.
   */
  public StudyPlan draw(long seed) {
    StudyDraw draw = new StudyDraw(this);
    List<SimulationScenario> drawn = new ArrayList<>();
    for (int i = 0; i < sites; i++) {
      drawn.add(draw.site(i, RandomStream.of(seed).child("site").child(i)));
    }
    return new StudyPlan(seed, shapes.recordedWith(), "extensor digitorum", activation, drawn);
  }

  private StudyScenario copy(
      SampleMuscleUse newUse,
      SampleMuscleSettings newMuscle,
      ActivitySettings newActivity,
      StimulusSettings newStimulus,
      MovementSettings newMovement) {
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
        abnormalShareRatio,
        blockingShareRatio,
        contaminationShareRatio,
        splitShareRatio,
        newUse,
        newMuscle,
        namedFromUv,
        newActivity,
        newStimulus,
        newMovement);
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
        splitShareRatio,
        sampleMuscleUse,
        sampleMuscle,
        namedFromUv,
        activity,
        stimulus,
        movement);
  }

  /**
   * Memory that drawing and recording this takes, estimated from above before it starts.
   *
   * @param sitesAtOnce how many sites are recorded at the same time, 1 or more
   * @return bytes
   */
  public long neededBytes(int sitesAtOnce) {
    return new MemoryNeed(this).bytes(sitesAtOnce);
  }

  private static void require(String what, double value, double low, double high) {
    if (!(value >= low && value <= high)) {
      throw new IllegalArgumentException(
          what + " must be " + low + " to " + high + ", found " + value);
    }
  }
}
