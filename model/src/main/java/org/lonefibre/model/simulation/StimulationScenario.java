package org.lonefibre.model.simulation;

/**
 * A train of stimuli to the nerve.
 *
 * @param rateHz 0.2 to 50 Hz; its period need not be whole samples
 * @param count number of stimuli, 1 to 10,000
 * @param startS time of the first
 * @param clockDeviationUs standard deviation of each stimulus about the even train, 0 to 10,000 us
 * @param rateStepRatio rate of the second half of the train over that of the first, 0.2 to 5
 * @param artefactUv height of the artefact, 0 for none, -100,000 to 100,000 uV
 * @param artefactDecayMs its time constant, 0.01 to 20 ms
 * @param marker how the recording says when the stimuli were
 * @param subliminal the stretch in which the stimulus is too weak for one axon
 */
public record StimulationScenario(
    double rateHz,
    int count,
    double startS,
    double clockDeviationUs,
    double rateStepRatio,
    double artefactUv,
    double artefactDecayMs,
    StimulusMarker marker,
    Subliminal subliminal) {

  /**
   * Stimulation near the threshold of one axon: some stimuli fail, the others act late and
   * unsteadily.
   *
   * @param unitId the axon's motor unit; empty for none
   * @param fromRatio start of the stretch as a share of the train
   * @param toRatio its end
   * @param firingProbability that a stimulus within it excites the axon
   * @param delayUs mean delay added within it
   * @param deviationUs standard deviation added within it (jitter rises by about 40 us with
   *     intermittent blocking: abstract on jitter of the stimulated motor axon)
   */
  public record Subliminal(
      String unitId,
      double fromRatio,
      double toRatio,
      double firingProbability,
      double delayUs,
      double deviationUs) {

    /** Refuses what lies outside the stated ranges. */
    public Subliminal {
      if (!(fromRatio >= 0 && toRatio >= fromRatio && toRatio <= 1)) {
        throw new IllegalArgumentException(
            "a subliminal stretch must lie within 0 to 1 of the train, found "
                + fromRatio
                + " to "
                + toRatio);
      }
      if (!(firingProbability >= 0 && firingProbability <= 1)) {
        throw new IllegalArgumentException(
            "firing probability must be 0 to 1, found " + firingProbability);
      }
      if (!(delayUs >= 0 && delayUs <= 1000 && deviationUs >= 0 && deviationUs <= 500)) {
        throw new IllegalArgumentException(
            "subliminal delay must be 0 to 1000 us and its deviation 0 to 500 us, found "
                + delayUs
                + " and "
                + deviationUs);
      }
    }

    /** Always strong enough. */
    public static Subliminal never() {
      return new Subliminal("", 0, 0, 1, 0, 0);
    }

    /** The middle third of the train is too weak for this axon. */
    public static Subliminal middleThird(String unitId) {
      return new Subliminal(unitId, 1.0 / 3, 2.0 / 3, 0.6, 150, 35);
    }
  }

  /** Refuses what lies outside the stated ranges. */
  public StimulationScenario {
    require("stimulus rate", rateHz, 0.2, 50, "Hz");
    require("number of stimuli", count, 1, 10_000, "");
    require("start of stimulation", startS, 0.01, 1e6, "s");
    require("deviation of the stimulus clock", clockDeviationUs, 0, 10_000, "us");
    require("step of the rate", rateStepRatio, 0.2, 5, "");
    require("artefact", artefactUv, -100_000, 100_000, "uV");
    require("decay of the artefact", artefactDecayMs, 0.01, 20, "ms");
  }

  /** 80 stimuli at 9.7 Hz, an artefact of 3 mV decaying in 0.4 ms, marked by a channel. */
  public static StimulationScenario defaults() {
    return new StimulationScenario(
        9.7, 80, 0.1, 0, 1, 3000, 0.4, StimulusMarker.CHANNEL, Subliminal.never());
  }

  /** Another train. */
  public StimulationScenario withTrain(double newRateHz, int newCount) {
    return new StimulationScenario(
        newRateHz,
        newCount,
        startS,
        clockDeviationUs,
        rateStepRatio,
        artefactUv,
        artefactDecayMs,
        marker,
        subliminal);
  }

  /** Another rate in the second half. */
  public StimulationScenario withRateStepRatio(double newRateStepRatio) {
    return new StimulationScenario(
        rateHz,
        count,
        startS,
        clockDeviationUs,
        newRateStepRatio,
        artefactUv,
        artefactDecayMs,
        marker,
        subliminal);
  }

  /** Another clock. */
  public StimulationScenario withClockDeviationUs(double newClockDeviationUs) {
    return new StimulationScenario(
        rateHz,
        count,
        startS,
        newClockDeviationUs,
        rateStepRatio,
        artefactUv,
        artefactDecayMs,
        marker,
        subliminal);
  }

  /** Another artefact. */
  public StimulationScenario withArtefact(double newArtefactUv, double newArtefactDecayMs) {
    return new StimulationScenario(
        rateHz,
        count,
        startS,
        clockDeviationUs,
        rateStepRatio,
        newArtefactUv,
        newArtefactDecayMs,
        marker,
        subliminal);
  }

  /** Another marker. */
  public StimulationScenario withMarker(StimulusMarker newMarker) {
    return new StimulationScenario(
        rateHz,
        count,
        startS,
        clockDeviationUs,
        rateStepRatio,
        artefactUv,
        artefactDecayMs,
        newMarker,
        subliminal);
  }

  /** A subliminal stretch. */
  public StimulationScenario withSubliminal(Subliminal newSubliminal) {
    return new StimulationScenario(
        rateHz,
        count,
        startS,
        clockDeviationUs,
        rateStepRatio,
        artefactUv,
        artefactDecayMs,
        marker,
        newSubliminal);
  }

  private static void require(String what, double value, double low, double high, String unit) {
    if (!(value >= low && value <= high)) {
      throw new IllegalArgumentException(
          (what + " must be " + low + " to " + high + " " + unit).strip() + ", found " + value);
    }
  }
}
