package org.lonefibre.model.motorunit;

/**
 * When the fibres of a unit fired at each of its discharges.
 *
 * <p>Thread rule: immutable.
 */
public final class UnitActivity {

  private final MotorUnitScenario scenario;
  private final double[] dischargeTimesS;
  private final boolean[][] present;
  private final double[][] arrivalTimesS;

  UnitActivity(
      MotorUnitScenario scenario,
      double[] dischargeTimesS,
      boolean[][] present,
      double[][] arrivalTimesS) {
    this.scenario = scenario;
    this.dischargeTimesS = dischargeTimesS;
    this.present = present;
    this.arrivalTimesS = arrivalTimesS;
  }

  /** The unit. */
  public MotorUnitScenario scenario() {
    return scenario;
  }

  /** Number of discharges, or of stimuli. */
  public int discharges() {
    return dischargeTimesS.length;
  }

  /** Time of a discharge, or of a stimulus. */
  public double dischargeTimeS(int discharge) {
    return dischargeTimesS[discharge];
  }

  /** Whether a fibre fired; fibres are numbered as in the scenario. */
  public boolean present(int fibre, int discharge) {
    return present[fibre][discharge];
  }

  /**
   * When a fibre's potential arrived.
   *
   * @throws IllegalArgumentException if it did not fire
   */
  public double arrivalTimeS(int fibre, int discharge) {
    if (!present[fibre][discharge]) {
      throw new IllegalArgumentException(
          "fibre " + fibre + " did not fire at discharge " + discharge);
    }
    return arrivalTimesS[fibre][discharge];
  }
}
