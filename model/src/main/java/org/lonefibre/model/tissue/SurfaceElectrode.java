package org.lonefibre.model.tissue;

/**
 * The mean of point electrodes spread over a flat ellipse that faces the fibre: averaging without
 * metal. Its points lie on rings of equal area, seen from the fibre at their true distance.
 *
 * <ul>
 *   <li>Thread rule: immutable.
 *   <li>Source: averaging over the recording surface is common practice in line-source models, no
 *       source; 25 points are an engineering choice (lead within 1 % of 400 points beyond half the
 *       ellipse's length).
 * </ul>
 */
final class SurfaceElectrode implements LeadField {

  private static final int[] POINTS_PER_RING = {1, 8, 16};

  private final PointElectrode point;
  private final double[] sideMm;
  private final double[] forwardMm;

  /**
   * @param tissue the medium
   * @param lengthMm the ellipse's axis along the fibres, 0.001 to 5 mm
   * @param widthMm its axis across them, 0.001 to 5 mm
   */
  SurfaceElectrode(Tissue tissue, double lengthMm, double widthMm) {
    requireSize("length", lengthMm);
    requireSize("width", widthMm);
    point = new PointElectrode(tissue);
    int count = 0;
    for (int points : POINTS_PER_RING) {
      count += points;
    }
    sideMm = new double[count];
    forwardMm = new double[count];
    int next = 0;
    double inner = 0;
    for (int points : POINTS_PER_RING) {
      double outer = inner + (double) points / count;
      double radius = points == 1 ? 0 : Math.sqrt((inner + outer) / 2);
      for (int i = 0; i < points; i++) {
        double angle = 2 * Math.PI * (i + 0.5) / points;
        sideMm[next] = radius * StrictMath.sin(angle) * widthMm / 2;
        forwardMm[next] = radius * StrictMath.cos(angle) * lengthMm / 2;
        next++;
      }
      inner = outer;
    }
  }

  @Override
  public double leadOhm(double acrossMm, double alongMm) {
    double sum = 0;
    for (int i = 0; i < sideMm.length; i++) {
      sum += point.leadOhm(distance(acrossMm, sideMm[i]), alongMm - forwardMm[i]);
    }
    return sum / sideMm.length;
  }

  @Override
  public double slopeOhmPerMm(double acrossMm, double alongMm) {
    double sum = 0;
    for (int i = 0; i < sideMm.length; i++) {
      sum += point.slopeOhmPerMm(distance(acrossMm, sideMm[i]), alongMm - forwardMm[i]);
    }
    return sum / sideMm.length;
  }

  private static double distance(double acrossMm, double sideMm) {
    return Math.sqrt(acrossMm * acrossMm + sideMm * sideMm);
  }

  private static void requireSize(String what, double valueMm) {
    if (!(valueMm >= 0.001 && valueMm <= 5)) {
      throw new IllegalArgumentException(
          what + " of an electrode must be 0.001 to 5 mm, found " + valueMm);
    }
  }
}
