package org.lonefibre.model.motorunit;

import java.util.List;

/**
 * How a motor unit fires.
 *
 * @param rateHz mean rate, 0.5 to 60 Hz
 * @param variationRatio standard deviation of inter-discharge intervals over their mean, 0 to 0.5
 * @param refractoryMs shortest interval, 0 to 200 ms and below the mean interval
 * @param driftRatio slow swing of the mean interval, 0 to 0.5 of it
 * @param driftPeriodS period of that swing, above 0
 * @param startS no discharge before this time
 * @param stopS none after it
 * @param pauses stretches without discharge
 * @param doubletProbability that a discharge is followed at once by another, 0 to 1
 * @param doubletMs mean interval of such two, 3 to 30 ms, drawn with a deviation of a tenth
 */
public record FiringSettings(
    double rateHz,
    double variationRatio,
    double refractoryMs,
    double driftRatio,
    double driftPeriodS,
    double startS,
    double stopS,
    List<Pause> pauses,
    double doubletProbability,
    double doubletMs) {

  /**
   * A stretch without discharge.
   *
   * @param startS its start
   * @param endS its end, after the start
   */
  public record Pause(double startS, double endS) {

    /** Refuses a stretch that ends before it starts. */
    public Pause {
      if (!(endS > startS)) {
        throw new IllegalArgumentException(
            "a pause must end after it starts, found " + startS + " to " + endS + " s");
      }
    }
  }

  /** Refuses what lies outside the stated ranges. */
  public FiringSettings {
    require("firing rate", rateHz, 0.5, 60, "Hz");
    require("variation of intervals", variationRatio, 0, 0.5, "");
    require("refractory time", refractoryMs, 0, 200, "ms");
    require("drift of the mean interval", driftRatio, 0, 0.5, "");
    require("period of the drift", driftPeriodS, 0.1, 1e6, "s");
    if (refractoryMs >= 1000 / rateHz) {
      throw new IllegalArgumentException(
          "refractory time must be below the mean interval of "
              + 1000 / rateHz
              + " ms, found "
              + refractoryMs);
    }
    require("share of doublets", doubletProbability, 0, 1, "");
    require("interval of doublets", doubletMs, 3, 30, "ms");
    pauses = List.copyOf(pauses);
  }

  /**
   * 11 Hz (limb, onset 132 ms and recruitment 90 ms: abstract on frequency control of motor units),
   * variation 0.13, 25 ms refractory, drift 0.05 over 7 s, no doublets (engineering choices).
   */
  public static FiringSettings defaults() {
    return new FiringSettings(11, 0.13, 25, 0.05, 7, 0, 1e9, List.of(), 0, 8);
  }

  /** Another mean rate. */
  public FiringSettings withRateHz(double newRateHz) {
    return new FiringSettings(
        newRateHz,
        variationRatio,
        refractoryMs,
        driftRatio,
        driftPeriodS,
        startS,
        stopS,
        pauses,
        doubletProbability,
        doubletMs);
  }

  /** Another variation. */
  public FiringSettings withVariationRatio(double newVariationRatio) {
    return new FiringSettings(
        rateHz,
        newVariationRatio,
        refractoryMs,
        driftRatio,
        driftPeriodS,
        startS,
        stopS,
        pauses,
        doubletProbability,
        doubletMs);
  }

  /** Another drift. */
  public FiringSettings withDriftRatio(double newDriftRatio) {
    return new FiringSettings(
        rateHz,
        variationRatio,
        refractoryMs,
        newDriftRatio,
        driftPeriodS,
        startS,
        stopS,
        pauses,
        doubletProbability,
        doubletMs);
  }

  /** Only between two times. */
  public FiringSettings withinS(double newStartS, double newStopS) {
    return new FiringSettings(
        rateHz,
        variationRatio,
        refractoryMs,
        driftRatio,
        driftPeriodS,
        newStartS,
        newStopS,
        pauses,
        doubletProbability,
        doubletMs);
  }

  /** With pauses. */
  public FiringSettings withPauses(List<Pause> newPauses) {
    return new FiringSettings(
        rateHz,
        variationRatio,
        refractoryMs,
        driftRatio,
        driftPeriodS,
        startS,
        stopS,
        newPauses,
        doubletProbability,
        doubletMs);
  }

  /** With doublets. */
  public FiringSettings withDoublets(double newDoubletProbability, double newDoubletMs) {
    return new FiringSettings(
        rateHz,
        variationRatio,
        refractoryMs,
        driftRatio,
        driftPeriodS,
        startS,
        stopS,
        pauses,
        newDoubletProbability,
        newDoubletMs);
  }

  /** Standard deviation of inter-discharge intervals, doublets left out. */
  public double intervalDeviationMs() {
    return variationRatio * 1000 / rateHz;
  }

  private static void require(String what, double value, double low, double high, String unit) {
    if (!(value >= low && value <= high)) {
      throw new IllegalArgumentException(
          (what + " must be " + low + " to " + high + " " + unit).strip() + ", found " + value);
    }
  }
}
