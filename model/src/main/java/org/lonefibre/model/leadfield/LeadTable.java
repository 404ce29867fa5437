package org.lonefibre.model.leadfield;

import org.lonefibre.model.tissue.LeadField;

/**
 * The lead of a solved needle along fibres at any distance straight before the core, from a table
 * made once: for a simulation that asks for many distances.
 *
 * <ul>
 *   <li>Lines at {@value #DISTANCES} distances from {@value #NEAREST_MM} to {@value #FARTHEST_MM}
 *       mm whose ratio is constant; between them a cubic through four, along the logarithm of the
 *       distance, of distance times lead. Nearer and farther, the first and last line.
 *   <li>Real part only: for contacts without phase.
 *   <li>Thread rule: immutable.
 * </ul>
 */
public final class LeadTable implements LeadField {

  private static final int DISTANCES = 48;
  private static final double NEAREST_MM = 0.02;
  private static final double FARTHEST_MM = 12;

  private final double[][][] splines = new double[DISTANCES][][];
  private final LeadLine.Places places;
  private final double logRatio = Math.log(FARTHEST_MM / NEAREST_MM) / (DISTANCES - 1);

  /** Solves the table; takes about half a second. */
  public LeadTable(SolvedNeedle needle) {
    double[] along = needle.fibreDirection();
    int half = LeadLine.halfSize(NEAREST_MM, LeadLine.usualStep());
    for (int i = 0; i < DISTANCES; i++) {
      double acrossMm = NEAREST_MM * Math.exp(i * logRatio);
      splines[i] =
          LeadLine.spline(
              LeadLine.sampled(
                  acrossMm,
                  half,
                  LeadLine.usualStep(),
                  place ->
                      acrossMm * needle.leadOhm(place * along[0], acrossMm, place * along[1])[0]),
              LeadLine.usualStep());
    }
    places = new LeadLine.Places(half, LeadLine.usualStep());
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
    double within = Math.max(NEAREST_MM, Math.min(FARTHEST_MM, acrossMm));
    double place = Math.log(within / NEAREST_MM) / logRatio;
    int first = Math.max(0, Math.min(DISTANCES - 4, (int) place - 1));
    double x = place - first;
    double[] weights = {
      -(x - 1) * (x - 2) * (x - 3) / 6,
      x * (x - 2) * (x - 3) / 2,
      -x * (x - 1) * (x - 3) / 2,
      x * (x - 1) * (x - 2) / 6
    };
    double[][] mixed = new double[3][splines[0][0].length];
    for (int k = 0; k < 4; k++) {
      LeadLine.add(mixed, weights[k] / within, splines[first + k]);
    }
    return new LeadLine(within, mixed, places);
  }
}
