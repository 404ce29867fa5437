package org.lonefibre.model.leadfield;

import org.lonefibre.model.tissue.Tissue;

/**
 * Muscle stretched until it conducts alike in all directions: x' = x sqrt(sb / s), sb = (s_across^2
 * s_along)^(1/3). Volumes stay.
 *
 * <ul>
 *   <li>Fibres lie in the plane y = 0 of the needle, turned from z towards x by an angle.
 *   <li>Source: textbook scaling of an anisotropic medium; checked by the infinite medium's closed
 *       form.
 * </ul>
 */
final class ScaledMedium {

  private static final double MM_PER_M = 1000;

  private final double acrossScale;
  private final double alongScale;
  private final double meanSPerMm;
  private final double fibreX;
  private final double fibreZ;

  ScaledMedium(Tissue tissue, double angleDeg) {
    double mean = Math.cbrt(tissue.acrossSPerM() * tissue.acrossSPerM() * tissue.alongSPerM());
    acrossScale = Math.sqrt(mean / tissue.acrossSPerM());
    alongScale = Math.sqrt(mean / tissue.alongSPerM());
    meanSPerMm = mean / MM_PER_M;
    double quarters = angleDeg / 90;
    if (quarters == Math.rint(quarters)) {
      boolean alongX = Math.floorMod((long) quarters, 2L) == 1;
      fibreX = alongX ? 1 : 0;
      fibreZ = alongX ? 0 : 1;
    } else {
      fibreX = Math.sin(Math.toRadians(angleDeg));
      fibreZ = Math.cos(Math.toRadians(angleDeg));
    }
  }

  /** Whether the plane z = 0 is a mirror of the medium too. */
  boolean mirrorsZ() {
    return fibreX == 0 || fibreZ == 0 || acrossScale == alongScale;
  }

  double fibreX() {
    return fibreX;
  }

  double fibreZ() {
    return fibreZ;
  }

  /** Conductivity of the stretched medium, in S per mm. */
  double meanSPerMm() {
    return meanSPerMm;
  }

  double[] scaled(double x, double y, double z) {
    double along = x * fibreX + z * fibreZ;
    double more = (alongScale - acrossScale) * along;
    return new double[] {
      acrossScale * x + more * fibreX, acrossScale * y, acrossScale * z + more * fibreZ
    };
  }
}
