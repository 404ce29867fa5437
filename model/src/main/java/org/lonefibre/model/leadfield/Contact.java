package org.lonefibre.model.leadfield;

/**
 * Impedance of an area of metal against the tissue: the voltage between them over the current
 * density.
 *
 * <ul>
 *   <li>0 is the ideal metal. Metal in tissue has about 0.2 pF per um2 at 1 kHz (Robinson 1968,
 *       abstract), a magnitude of about 8e-4 ohm m2.
 * </ul>
 *
 * @param realOhmM2 resistance times area, 0 to 10 ohm m2
 * @param reactiveOhmM2 reactance times area, -10 to 10 ohm m2; negative for a capacitance
 */
public record Contact(double realOhmM2, double reactiveOhmM2) {

  /** Ideal metal. */
  public static final Contact IDEAL = new Contact(0, 0);

  /** Refuses what is no contact of metal. */
  public Contact {
    if (!(realOhmM2 >= 0 && realOhmM2 <= 10)) {
      throw new IllegalArgumentException("contact must be 0 to 10 ohm m2, found " + realOhmM2);
    }
    if (!(Math.abs(reactiveOhmM2) <= 10)) {
      throw new IllegalArgumentException(
          "reactance of the contact must be -10 to 10 ohm m2, found " + reactiveOhmM2);
    }
  }

  /** A resistance. */
  public static Contact resistive(double ohmM2) {
    return new Contact(ohmM2, 0);
  }

  /**
   * A capacitance at a frequency.
   *
   * @param faradPerM2 capacitance over area, in F per m2, above 0
   * @param frequencyHz above 0
   */
  public static Contact capacitive(double faradPerM2, double frequencyHz) {
    return new Contact(0, -1 / (2 * Math.PI * frequencyHz * faradPerM2));
  }
}
