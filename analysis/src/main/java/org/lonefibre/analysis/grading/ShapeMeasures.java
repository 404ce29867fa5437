package org.lonefibre.analysis.grading;

/**
 * What the judgement of one potential rests on.
 *
 * @param evidenceRatio evidence for a second fibre whatever its delay: logarithm of how much
 *     likelier the sweeps are with one than without, -12 to 12; from variance and, if another
 *     potential of the unit tells of the arrivals, from movement against them
 * @param varianceEvidenceRatio the same from variance alone
 * @param followsRatio how much something in it moves against its arrivals, over what chance gives;
 *     chance gives 1 to 3; null if no other potential of the unit tells of its arrivals
 * @param misfitRatio what the nearest shape of one fibre leaves of it, over its size
 * @param delayUs delay at which a second fibre would explain most
 * @param varianceRatio variance over that of noise at this delay
 * @param movingUs movement that a fibre as large as the potential would have to make there
 * @param arrivalShareRatio share of the movement of such a fibre by which the arrival is drawn
 *     along
 * @param arrivalSpreadUs standard deviation of the arrivals against the other potential; NaN
 *     without one
 */
public record ShapeMeasures(
    double evidenceRatio,
    double varianceEvidenceRatio,
    @org.jspecify.annotations.Nullable Double followsRatio,
    double misfitRatio,
    double delayUs,
    double varianceRatio,
    double movingUs,
    double arrivalShareRatio,
    double arrivalSpreadUs) {

  /**
   * Size of the second fibre against the potential, if it jitters as the other potential of the
   * unit does; 1 at most, as the larger fibre is the first; NaN if that is not known. About a lower
   * bound: farther fibres are less steep than they are large.
   */
  public double sizeRatio() {
    return arrivalSpreadUs > 1 ? Math.min(1, movingUs / arrivalSpreadUs) : Double.NaN;
  }

  /**
   * Jitter measured from the potential over that of its larger fibre, if the second one is so large
   * and jitters as much; NaN if the size is not known.
   */
  public double jitterRatio() {
    double drawn = Math.min(1, sizeRatio()) * arrivalShareRatio;
    return Math.hypot(1 - drawn, drawn);
  }
}
