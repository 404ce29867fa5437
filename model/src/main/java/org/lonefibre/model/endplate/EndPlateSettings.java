package org.lonefibre.model.endplate;

/**
 * The law of one end-plate.
 *
 * @param law how its delay varies
 * @param standardDeviationUs of the delay, for {@link DelayLaw#GAUSSIAN} and {@link
 *     DelayLaw#GAMMA}, 0 to 500 us
 * @param safetyFactorRatio mean end-plate potential over threshold, for {@link DelayLaw#THRESHOLD},
 *     1.05 to 20
 * @param blockingProbability of a block that does not depend on the delay, 0 to 1
 * @param flipFlopUs distance between two delay states, 0 for one state, up to 1,000 us
 * @param flipProbability that the state changes from one discharge to the next, 0 to 1
 * @param trendPerDischargeUs added to the delay at every discharge
 * @param recoveryPerMsUs change of arrival per ms by which the preceding inter-discharge interval
 *     is longer than the mean (velocity recovery function, near the mean a straight line)
 */
public record EndPlateSettings(
    DelayLaw law,
    double standardDeviationUs,
    double safetyFactorRatio,
    double blockingProbability,
    double flipFlopUs,
    double flipProbability,
    double trendPerDischargeUs,
    double recoveryPerMsUs) {

  /** Refuses what lies outside the stated ranges. */
  public EndPlateSettings {
    require("standard deviation of the delay", standardDeviationUs, 0, 500, "us");
    require("safety factor", safetyFactorRatio, 1.05, 20, "");
    require("blocking probability", blockingProbability, 0, 1, "");
    require("distance of two delay states", flipFlopUs, 0, 1000, "us");
    require("probability of a change of state", flipProbability, 0, 1, "");
    require("trend per discharge", trendPerDischargeUs, -50, 50, "us");
    require("recovery per ms", recoveryPerMsUs, -50, 50, "us");
  }

  /** Gaussian, 18 us: a pair of two such has a jitter of 29 us, usual in limb muscle. */
  public static EndPlateSettings defaults() {
    return gaussian(18);
  }

  /** No variation. */
  public static EndPlateSettings constant() {
    return new EndPlateSettings(DelayLaw.CONSTANT, 0, 4, 0, 0, 0.3, 0, 0);
  }

  /** Gaussian delays. */
  public static EndPlateSettings gaussian(double standardDeviationUs) {
    return new EndPlateSettings(DelayLaw.GAUSSIAN, standardDeviationUs, 4, 0, 0, 0.3, 0, 0);
  }

  /** Skewed delays. */
  public static EndPlateSettings gamma(double standardDeviationUs) {
    return new EndPlateSettings(DelayLaw.GAMMA, standardDeviationUs, 4, 0, 0, 0.3, 0, 0);
  }

  /** A potential that rises to a threshold. */
  public static EndPlateSettings threshold(double safetyFactorRatio) {
    return new EndPlateSettings(DelayLaw.THRESHOLD, 0, safetyFactorRatio, 0, 0, 0.3, 0, 0);
  }

  /** The same with independent blocking. */
  public EndPlateSettings withBlockingProbability(double newBlockingProbability) {
    return new EndPlateSettings(
        law,
        standardDeviationUs,
        safetyFactorRatio,
        newBlockingProbability,
        flipFlopUs,
        flipProbability,
        trendPerDischargeUs,
        recoveryPerMsUs);
  }

  /** The same with two delay states. */
  public EndPlateSettings withFlipFlop(double newFlipFlopUs, double newFlipProbability) {
    return new EndPlateSettings(
        law,
        standardDeviationUs,
        safetyFactorRatio,
        blockingProbability,
        newFlipFlopUs,
        newFlipProbability,
        trendPerDischargeUs,
        recoveryPerMsUs);
  }

  /** The same with a trend. */
  public EndPlateSettings withTrendPerDischargeUs(double newTrendPerDischargeUs) {
    return new EndPlateSettings(
        law,
        standardDeviationUs,
        safetyFactorRatio,
        blockingProbability,
        flipFlopUs,
        flipProbability,
        newTrendPerDischargeUs,
        recoveryPerMsUs);
  }

  /** The same with velocity recovery. */
  public EndPlateSettings withRecoveryPerMsUs(double newRecoveryPerMsUs) {
    return new EndPlateSettings(
        law,
        standardDeviationUs,
        safetyFactorRatio,
        blockingProbability,
        flipFlopUs,
        flipProbability,
        trendPerDischargeUs,
        newRecoveryPerMsUs);
  }

  private static void require(String what, double value, double low, double high, String unit) {
    if (!(value >= low && value <= high)) {
      throw new IllegalArgumentException(
          (what + " must be " + low + " to " + high + " " + unit).strip() + ", found " + value);
    }
  }
}
