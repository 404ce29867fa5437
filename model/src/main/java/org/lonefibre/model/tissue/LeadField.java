package org.lonefibre.model.tissue;

/**
 * What one ampere at a place in the tissue gives at the electrode, in volts, hence in ohm. Even in
 * the distance along the fibres, unless the electrode differs between its two sides.
 *
 * <p>Thread rule: implementations are immutable.
 */
public interface LeadField {

  /**
   * Lead at a place.
   *
   * @param acrossMm distance across the fibres from the electrode, above 0
   * @param alongMm distance along the fibres from the electrode, either sign
   */
  double leadOhm(double acrossMm, double alongMm);

  /** Derivative of the lead along the fibres, in ohm per mm. */
  double slopeOhmPerMm(double acrossMm, double alongMm);

  /**
   * Slopes at evenly spaced places along the fibres, in ohm per mm.
   *
   * @param acrossMm distance across the fibres, above 0
   * @param fromMm first place along them
   * @param stepMm from place to place, above 0
   * @param count number of places
   */
  default double[] slopesOhmPerMm(double acrossMm, double fromMm, double stepMm, int count) {
    double[] slopes = new double[count];
    for (int i = 0; i < count; i++) {
      slopes[i] = slopeOhmPerMm(acrossMm, fromMm + i * stepMm);
    }
    return slopes;
  }

  /**
   * A point against a reference infinitely far: 1 / (4 pi s_across sqrt(K rho^2 + z^2)), K =
   * s_along / s_across; infinite at the point itself.
   */
  static LeadField point(Tissue tissue) {
    return new PointElectrode(tissue);
  }

  /**
   * The mean over a flat ellipse that faces the fibre.
   *
   * @param tissue the medium
   * @param lengthMm its axis along the fibres, 0.001 to 5 mm
   * @param widthMm its axis across them, 0.001 to 5 mm
   */
  static LeadField surface(Tissue tissue, double lengthMm, double widthMm) {
    return new SurfaceElectrode(tissue, lengthMm, widthMm);
  }

  /**
   * This electrode against a point that lies behind it.
   *
   * @param tissue the medium
   * @param behindMm how far behind, above 0 to 100 mm
   */
  default LeadField againstPointBehind(Tissue tissue, double behindMm) {
    return new ReferencedElectrode(this, new PointElectrode(tissue), behindMm);
  }
}
