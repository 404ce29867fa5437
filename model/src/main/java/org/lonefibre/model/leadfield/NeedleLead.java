package org.lonefibre.model.leadfield;

import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import org.lonefibre.model.tissue.LeadField;

/**
 * The lead of a solved needle along fibres that pass in one direction from the core's normal.
 *
 * <ul>
 *   <li>A line is solved at places that spread out like a hyperbolic sine and read by a cubic
 *       spline, so the slope along it is smooth. Lines are kept by distance.
 *   <li>Not even along the fibre unless the needle mirrors: the end away from the tip differs.
 *   <li>Where the contact gives a phase, this is the real or the imaginary part.
 *   <li>Thread rule: safe.
 * </ul>
 */
public final class NeedleLead implements LeadField {

  /** Which part of a lead with phase. */
  public enum Part {
    /** In phase. */
    REAL,
    /** A quarter period ahead. */
    IMAGINARY
  }

  /** How near counts as touching: more than what laying the surface in triangles takes away. */
  private static final double TOUCHING_MM = 0.002;

  private static final double LOOKED_AT_MM = 20;
  private static final double LOOK_STEP_MM = 0.05;

  private final SolvedNeedle needle;
  private final Part part;
  private final double outCosine;
  private final double outSine;
  private final Map<Double, LeadLine> lines = new ConcurrentHashMap<>();

  /**
   * @param needle the solved needle
   * @param aroundDeg direction of the fibres from the core's outward normal, turning about the
   *     fibres' own direction; 0 is straight before the core, -85 to 85 keeps clear of most
   *     needles. A fibre that meets the needle anywhere on its way, be it its surface only (as at
   *     90 beside the shaft), is refused when asked for
   * @param part which part
   */
  public NeedleLead(SolvedNeedle needle, double aroundDeg, Part part) {
    if (!(Math.abs(aroundDeg) <= 360)) {
      throw new IllegalArgumentException(
          "direction must be -360 to 360 degrees, found " + aroundDeg);
    }
    this.needle = needle;
    this.part = part;
    outCosine = Math.cos(Math.toRadians(aroundDeg));
    outSine = Math.sin(Math.toRadians(aroundDeg));
  }

  @Override
  public double leadOhm(double acrossMm, double alongMm) {
    return line(acrossMm).at(alongMm);
  }

  @Override
  public double slopeOhmPerMm(double acrossMm, double alongMm) {
    return line(acrossMm).slopeAt(alongMm);
  }

  @Override
  public double[] slopesOhmPerMm(double acrossMm, double fromMm, double stepMm, int count) {
    return line(acrossMm).slopes(fromMm, stepMm, count);
  }

  private LeadLine line(double acrossMm) {
    LeadLine kept = lines.get(acrossMm);
    if (kept != null) {
      return kept;
    }
    // Not computeIfAbsent: solving works on all processors, which may come back here.
    LeadLine solved = solve(acrossMm);
    lines.put(acrossMm, solved);
    return solved;
  }

  private LeadLine solve(double acrossMm) {
    double[] along = needle.fibreDirection();
    double x = acrossMm * outSine * along[1];
    double y = acrossMm * outCosine;
    double z = -acrossMm * outSine * along[0];
    refuseIfMet(acrossMm, x, y, z);
    return new LeadLine(
        acrossMm,
        place ->
            needle
                .leadOhm(x + place * along[0], y, z + place * along[1])[part == Part.REAL ? 0 : 1]);
  }

  /** Refuses a fibre that the needle stands in the way of, within {@value #TOUCHING_MM} mm. */
  private void refuseIfMet(double acrossMm, double x, double y, double z) {
    double[] along = needle.fibreDirection();
    int half = (int) Math.ceil(LOOKED_AT_MM / LOOK_STEP_MM);
    for (int i = -half; i <= half; i++) {
      double placeMm = i * LOOK_STEP_MM;
      if (touches(x + placeMm * along[0], y, z + placeMm * along[1])) {
        throw new IllegalArgumentException(
            "a fibre "
                + acrossMm
                + " mm from the core, "
                + Math.round(Math.toDegrees(Math.atan2(outSine, outCosine)))
                + " degrees from its outward normal, would touch or pass through the needle ("
                + placeMm
                + " mm along it): take another distance or direction");
      }
    }
  }

  private boolean touches(double x, double y, double z) {
    double[] along = needle.fibreDirection();
    double sideX = TOUCHING_MM * along[1];
    double sideZ = -TOUCHING_MM * along[0];
    return needle.holds(x, y, z)
        || needle.holds(x, y - TOUCHING_MM, z)
        || needle.holds(x, y + TOUCHING_MM, z)
        || needle.holds(x + sideX, y, z + sideZ)
        || needle.holds(x - sideX, y, z - sideZ);
  }
}
