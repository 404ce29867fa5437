package org.lonefibre.model.fibre;

/**
 * Where a fibre lies and what it is like.
 *
 * @param diameterUm diameter, 10 to 150 um
 * @param distanceMm from the electrode to the fibre's axis, across the fibres, above 0 to 20 mm
 * @param endPlateDistanceMm from the end-plate to the place before the electrode, along the fibre,
 *     0 or more
 * @param towardsTendonMm from the end-plate to the tendon on the electrode's side
 * @param awayTendonMm from the end-plate to the other tendon
 */
public record FibreGeometry(
    double diameterUm,
    double distanceMm,
    double endPlateDistanceMm,
    double towardsTendonMm,
    double awayTendonMm) {

  /** Refuses what no muscle holds. */
  public FibreGeometry {
    require("diameter", diameterUm, 10, 150, "um");
    require("distance", distanceMm, 0.001, 20, "mm");
    require("end-plate distance", endPlateDistanceMm, 0, 300, "mm");
    require("length towards the electrode", towardsTendonMm, 1, 300, "mm");
    require("length away from the electrode", awayTendonMm, 1, 300, "mm");
  }

  /** A fibre of 55 um, 0.2 mm away, end-plate 20 mm off, tendons 60 and 55 mm from it. */
  public static FibreGeometry defaults() {
    return new FibreGeometry(55, 0.2, 20, 60, 55);
  }

  /** The same fibre at another distance. */
  public FibreGeometry withDistanceMm(double newDistanceMm) {
    return new FibreGeometry(
        diameterUm, newDistanceMm, endPlateDistanceMm, towardsTendonMm, awayTendonMm);
  }

  /** The same fibre with another diameter. */
  public FibreGeometry withDiameterUm(double newDiameterUm) {
    return new FibreGeometry(
        newDiameterUm, distanceMm, endPlateDistanceMm, towardsTendonMm, awayTendonMm);
  }

  /** The same fibre with its end-plate elsewhere. */
  public FibreGeometry withEndPlateDistanceMm(double newEndPlateDistanceMm) {
    return new FibreGeometry(
        diameterUm, distanceMm, newEndPlateDistanceMm, towardsTendonMm, awayTendonMm);
  }

  /** 0.05 d + 0.95 m/s, d in um (Blijham et al. 2006, abstract). */
  public double velocityMPerS() {
    return 0.05 * diameterUm + 0.95;
  }

  private static void require(String what, double value, double low, double high, String unit) {
    if (!(value >= low && value <= high)) {
      throw new IllegalArgumentException(
          what + " must be " + low + " to " + high + " " + unit + ", found " + value);
    }
  }
}
