package org.lonefibre.model.tissue;

/**
 * An electrode against a point that lies behind it, straight away from the fibre: the nearest that
 * points come to a needle whose cannula is the reference.
 *
 * <ul>
 *   <li>A point against a point 0.35 mm behind has the lead of a solved side-port needle within 25
 *       % from 0.1 to 2 mm (computed values of the project's reference tables), which a lone point
 *       exceeds up to seven times; so small potentials come from as near, and are as steep, as with
 *       such a needle.
 * </ul>
 *
 * @param core the recording electrode
 * @param reference the point behind
 * @param behindMm how far behind, above 0
 */
record ReferencedElectrode(LeadField core, PointElectrode reference, double behindMm)
    implements LeadField {

  /** Refuses a reference that is not behind. */
  ReferencedElectrode {
    if (!(behindMm > 0 && behindMm <= 100)) {
      throw new IllegalArgumentException(
          "a reference must lie above 0 and up to 100 mm behind, found " + behindMm);
    }
  }

  @Override
  public double leadOhm(double acrossMm, double alongMm) {
    return core.leadOhm(acrossMm, alongMm) - reference.leadOhm(acrossMm + behindMm, alongMm);
  }

  @Override
  public double slopeOhmPerMm(double acrossMm, double alongMm) {
    return core.slopeOhmPerMm(acrossMm, alongMm)
        - reference.slopeOhmPerMm(acrossMm + behindMm, alongMm);
  }
}
