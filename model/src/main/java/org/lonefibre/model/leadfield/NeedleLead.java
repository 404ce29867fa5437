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

  private final SolvedNeedle needle;
  private final Part part;
  private final double outCosine;
  private final double outSine;
  private final Map<Double, LeadLine> lines = new ConcurrentHashMap<>();

  /**
   * @param needle the solved needle
   * @param aroundDeg direction of the fibres from the core's outward normal, turning about the
   *     fibres' own direction; 0 is straight before the core, -85 to 85 keeps clear of most
   *     needles; at 90 a fibre lies on the shaft's own line, where the integrals have no one value
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
    if (needle.holds(x, y, z)) {
      throw new IllegalArgumentException(
          "a fibre " + acrossMm + " mm from the core would pass through the needle");
    }
    return new LeadLine(
        acrossMm,
        place ->
            needle
                .leadOhm(x + place * along[0], y, z + place * along[1])[part == Part.REAL ? 0 : 1]);
  }
}
