package org.lonefibre.model.tissue;

/**
 * A point in an infinite anisotropic medium against a reference infinitely far:
 *
 * <p>lead = 1 / (4 pi s_across sqrt(K rho^2 + z^2)), K = s_along / s_across.
 *
 * <ul>
 *   <li>At the point itself the lead is infinite; distances across must be above 0.
 *   <li>Source: the closed form of a point source in a stretched medium.
 * </ul>
 *
 * @param tissue the medium
 */
record PointElectrode(Tissue tissue) implements LeadField {

  private static final double OHM_PER_KILOOHM = 1000;

  @Override
  public double leadOhm(double acrossMm, double alongMm) {
    double squared = tissue.anisotropyRatio() * acrossMm * acrossMm + alongMm * alongMm;
    return strengthOhmPerMm() / Math.sqrt(squared);
  }

  @Override
  public double slopeOhmPerMm(double acrossMm, double alongMm) {
    double squared = tissue.anisotropyRatio() * acrossMm * acrossMm + alongMm * alongMm;
    return -strengthOhmPerMm() * alongMm / (squared * Math.sqrt(squared));
  }

  private double strengthOhmPerMm() {
    return OHM_PER_KILOOHM / (4 * Math.PI * tissue.acrossSPerM());
  }
}
