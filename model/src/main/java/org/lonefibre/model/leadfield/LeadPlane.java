package org.lonefibre.model.leadfield;

import java.util.stream.IntStream;
import org.lonefibre.model.tissue.LeadField;

/**
 * The lead of a solved needle along fibres anywhere about it, from a table made once: for a muscle
 * of many fibres.
 *
 * <ul>
 *   <li>Lines at {@value #DISTANCES} distances from {@value #NEAREST_MM} to {@value #FARTHEST_MM}
 *       mm whose ratio is constant, in {@value #DIRECTIONS} directions across the fibres; between
 *       them straight along the angle and the logarithm of the distance, of distance times lead.
 *       Nearer and farther, the first and last line. Within 5 % for nine of ten fibres (test).
 *   <li>A direction that leads into the needle takes the values of the next that does not.
 *   <li>In phase only: for contacts without phase, or as the part that a contact leaves.
 *   <li>Thread rule: immutable.
 * </ul>
 */
public final class LeadPlane {

  private static final int DISTANCES = 20;
  private static final int DIRECTIONS = 36;
  private static final double NEAREST_MM = 0.03;
  private static final double FARTHEST_MM = 12;
  private static final double STEP = 0.2;

  private final SolvedNeedle needle;
  private final double[][][][] splines = new double[DISTANCES][DIRECTIONS][][];
  private final LeadLine.Places places;
  private final double logRatio = Math.log(FARTHEST_MM / NEAREST_MM) / (DISTANCES - 1);
  private final double turn = 2 * Math.PI / DIRECTIONS;

  /** Solves the table; takes about a second. */
  public LeadPlane(SolvedNeedle needle) {
    this.needle = needle;
    int half = LeadLine.halfSize(NEAREST_MM, STEP);
    places = new LeadLine.Places(half, STEP);
    IntStream.range(0, DISTANCES).parallel().forEach(d -> solve(d, half));
  }

  private void solve(int d, int half) {
    double distanceMm = NEAREST_MM * Math.exp(d * logRatio);
    for (int k = 0; k < DIRECTIONS; k++) {
      double angle = (k + 0.5) * turn;
      double out = distanceMm * Math.cos(angle);
      double side = distanceMm * Math.sin(angle);
      splines[d][k] =
          holds(out, side)
              ? new double[0][]
              : LeadLine.spline(line(distanceMm, out, side, half), STEP);
    }
    for (int reach = 1; reach < DIRECTIONS; reach++) {
      for (int k = 0; k < DIRECTIONS; k++) {
        if (splines[d][k].length == 0) {
          double[][] before = splines[d][Math.floorMod(k - 1, DIRECTIONS)];
          double[][] after = splines[d][(k + 1) % DIRECTIONS];
          splines[d][k] = before.length > 0 ? before : after;
        }
      }
    }
  }

  private double[] line(double distanceMm, double outMm, double sideMm, int half) {
    double[] along = needle.fibreDirection();
    double x = sideMm * along[1];
    double z = -sideMm * along[0];
    double[] line = new double[2 * half + 1];
    boolean even = needle.mirrors() && along[0] == 0;
    for (int i = even ? half : 0; i < line.length; i++) {
      double place = distanceMm * Math.sinh((i - half) * STEP);
      line[i] = distanceMm * needle.leadOhm(x + place * along[0], outMm, z + place * along[1])[0];
      line[even ? 2 * half - i : i] = line[i];
    }
    return line;
  }

  /**
   * Whether a place lies in the needle.
   *
   * @param outMm from the core along its outward normal
   * @param sideMm from there across the fibres; at angle 0 towards the tip
   */
  public boolean holds(double outMm, double sideMm) {
    double[] along = needle.fibreDirection();
    return needle.holds(sideMm * along[1], outMm, -sideMm * along[0]);
  }

  /**
   * The lead along a fibre; the distance across that is asked of it later does not matter.
   *
   * @param outMm from the core along its outward normal
   * @param sideMm from there across the fibres; at angle 0 towards the tip
   */
  public LeadField fibre(double outMm, double sideMm) {
    double distanceMm = Math.hypot(outMm, sideMm);
    double within = Math.max(NEAREST_MM, Math.min(FARTHEST_MM, distanceMm));
    double place = Math.min(DISTANCES - 1.001, Math.log(within / NEAREST_MM) / logRatio);
    double angle = Math.atan2(sideMm, outMm) / turn - 0.5;
    int d = (int) place;
    int k = (int) Math.floor(angle);
    double far = place - d;
    double turned = angle - k;
    double[][] mixed = new double[3][splines[0][0][0].length];
    for (int corner = 0; corner < 4; corner++) {
      int more = corner & 1;
      int next = corner >> 1;
      double weight = (more == 1 ? far : 1 - far) * (next == 1 ? turned : 1 - turned) / within;
      LeadLine.add(mixed, weight, splines[d + more][Math.floorMod(k + next, DIRECTIONS)]);
    }
    return new FixedLine(new LeadLine(within, mixed, places));
  }

  private record FixedLine(LeadLine line) implements LeadField {

    @Override
    public double leadOhm(double acrossMm, double alongMm) {
      return line.at(alongMm);
    }

    @Override
    public double slopeOhmPerMm(double acrossMm, double alongMm) {
      return line.slopeAt(alongMm);
    }

    @Override
    public double[] slopesOhmPerMm(double acrossMm, double fromMm, double stepMm, int count) {
      return line.slopes(fromMm, stepMm, count);
    }
  }
}
