package org.lonefibre.analysis.discharge;

/**
 * How potentials are found and motor units told apart. All are engineering choices, checked by
 * {@code validate}; none has to be set for the usual recording.
 *
 * @param threshold slope over its noise from which a potential is looked at
 * @param steepUs time over which the slope is taken on either side
 * @param flankUs within this time of a steeper phase, an opposite one is its flank
 * @param sameSlopeUs within this time of a steeper phase, one in the same direction is the same
 * @param reachMs potentials of one discharge lie within this time of each other
 * @param refractoryMs two discharges of one motor unit are at least this far apart
 * @param fewestDischarges a motor unit has at least this many discharges
 */
public record DischargeSettings(
    double threshold,
    double steepUs,
    double flankUs,
    double sameSlopeUs,
    double reachMs,
    double refractoryMs,
    int fewestDischarges) {

  /** Refuses values that cannot work. */
  public DischargeSettings {
    require("threshold", threshold, 2, 20);
    require("steepUs", steepUs, 20, 500);
    require("flankUs", flankUs, 100, 2000);
    require("sameSlopeUs", sameSlopeUs, 50, 1000);
    require("reachMs", reachMs, 1, 30);
    require("refractoryMs", refractoryMs, 1, 30);
    require("fewestDischarges", fewestDischarges, 3, 1000);
  }

  /** The engineering choices as shipped. */
  public static DischargeSettings defaults() {
    return new DischargeSettings(4.5, 100, 500, 250, 8, 12, 8);
  }

  /** The same with another threshold. */
  public DischargeSettings withThreshold(double value) {
    return new DischargeSettings(
        value, steepUs, flankUs, sameSlopeUs, reachMs, refractoryMs, fewestDischarges);
  }

  /** The same with another smallest number of discharges. */
  public DischargeSettings withFewestDischarges(int value) {
    return new DischargeSettings(
        threshold, steepUs, flankUs, sameSlopeUs, reachMs, refractoryMs, value);
  }

  private static void require(String name, double value, double low, double high) {
    if (!(value >= low && value <= high)) {
      throw new IllegalArgumentException(
          name + " must be " + low + " to " + high + ", found " + value);
    }
  }
}
