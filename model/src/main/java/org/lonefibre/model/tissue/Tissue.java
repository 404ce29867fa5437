package org.lonefibre.model.tissue;

/**
 * Conductivities of muscle: an infinite, homogeneous medium that conducts better along its fibres.
 *
 * @param acrossSPerM conductivity across the fibres, in S/m, above 0
 * @param alongSPerM conductivity along the fibres, in S/m, above 0
 * @param insideSPerM conductivity inside a fibre, in S/m, above 0
 */
public record Tissue(double acrossSPerM, double alongSPerM, double insideSPerM) {

  /** Refuses what does not conduct. */
  public Tissue {
    requireConducting("across the fibres", acrossSPerM);
    requireConducting("along the fibres", alongSPerM);
    requireConducting("inside the fibres", insideSPerM);
  }

  /** 0.063 across, 0.33 along, 1.01 S/m inside (Andreassen and Rosenfalck 1978, from memory). */
  public static Tissue defaults() {
    return new Tissue(0.063, 0.33, 1.01);
  }

  /** How much better it conducts along than across. */
  public double anisotropyRatio() {
    return alongSPerM / acrossSPerM;
  }

  private static void requireConducting(String where, double value) {
    if (!(value > 0 && value < 100)) {
      throw new IllegalArgumentException(
          "conductivity " + where + " must be above 0 and below 100 S/m, found " + value);
    }
  }
}
