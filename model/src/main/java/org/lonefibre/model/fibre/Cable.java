package org.lonefibre.model.fibre;

/**
 * What lies between needle and amplifier: it loads the needle's impedance.
 *
 * @param capacitanceFarad of cable and input together, 0 to 1e-8 F
 * @param inputOhm input resistance, 1e6 to 1e15 ohm
 */
public record Cable(double capacitanceFarad, double inputOhm) {

  /** Refuses what is no cable. */
  public Cable {
    if (!(capacitanceFarad >= 0 && capacitanceFarad <= 1e-8)) {
      throw new IllegalArgumentException(
          "capacitance of the cable must be 0 to 1e-8 F, found " + capacitanceFarad);
    }
    if (!(inputOhm >= 1e6 && inputOhm <= 1e15)) {
      throw new IllegalArgumentException(
          "input resistance must be 1e6 to 1e15 ohm, found " + inputOhm);
    }
  }

  /** 100 pF and 100 MOhm: a short shielded cable, engineering choice; input from memory. */
  public static Cable defaults() {
    return new Cable(100e-12, 100e6);
  }

  /** None: an ideal amplifier at the needle. */
  public static Cable none() {
    return new Cable(0, 1e15);
  }
}
