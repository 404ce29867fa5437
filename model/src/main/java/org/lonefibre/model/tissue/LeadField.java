package org.lonefibre.model.tissue;

/**
 * What one ampere at a place in the tissue gives at the electrode, in volts, hence in ohm. Even in
 * the distance along the fibres.
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
}
