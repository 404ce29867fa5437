package org.lonefibre.model.electrode;

/** Where and how a needle records. */
public sealed interface Tip permits Tip.SidePort, Tip.Bevel, Tip.Cone {

  /**
   * A wire that ends in the side of the shaft, in the middle of a drilled and insulated port.
   *
   * @param coreDiameterUm diameter of the wire, 5 to 500 um
   * @param portDiameterUm diameter of the port as drilled (seen along its axis), 20 to 2,000 um,
   *     more than the core and less than the shaft
   * @param coreFromTipMm from the middle of the core to the end of the needle, 0.3 to 20 mm
   */
  record SidePort(double coreDiameterUm, double portDiameterUm, double coreFromTipMm)
      implements Tip {}

  /**
   * A wire in a tube, both ground off obliquely.
   *
   * @param coreDiameterUm diameter of the wire across the shaft, 10 to 1,000 um
   * @param insulationThicknessUm thickness of the ring between wire and tube across the shaft, 2 to
   *     500 um
   * @param bevelDeg angle between face and shaft, 8 to 75 degrees
   */
  record Bevel(double coreDiameterUm, double insulationThicknessUm, double bevelDeg)
      implements Tip {}

  /**
   * A bare cone at the end of an insulated shaft.
   *
   * @param tipConeDeg full angle of the cone, 5 to 90 degrees
   * @param exposedLengthMm bare length from the point along the axis, 0.02 to 10 mm
   */
  record Cone(double tipConeDeg, double exposedLengthMm) implements Tip {}
}
