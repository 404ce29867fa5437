package org.lonefibre.model.motorunit;

import org.lonefibre.model.fibre.FibreGeometry;

/**
 * A fibre of a sample muscle and its place beside a needle.
 *
 * @param outMm from the core along its outward normal
 * @param sideMm from there across the fibres; at angle 0 towards the tip
 * @param geometry what it is like; its distance is that of the place
 */
record PlacedFibre(double outMm, double sideMm, FibreGeometry geometry) {

  double distanceMm() {
    return Math.hypot(outMm, sideMm);
  }

  /** The same fibre with the needle elsewhere. */
  PlacedFibre movedBy(double moreOutMm, double moreSideMm) {
    double out = outMm + moreOutMm;
    double side = sideMm + moreSideMm;
    return new PlacedFibre(out, side, geometry.withDistanceMm(distanceMm(out, side)));
  }

  static double distanceMm(double outMm, double sideMm) {
    return Math.max(0.001, Math.min(20, Math.hypot(outMm, sideMm)));
  }
}
