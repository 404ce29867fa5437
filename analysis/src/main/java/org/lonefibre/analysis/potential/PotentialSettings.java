package org.lonefibre.analysis.potential;

import org.lonefibre.signal.recording.TimeBase;

/**
 * How potentials are placed and their presence judged. All are engineering choices, checked by
 * {@code validate}.
 *
 * @param shapeBeforeUs length of a shape before the arrival while potentials are counted and units
 *     told apart: so short that a second potential is not taken for a part of it
 * @param shapeAfterUs the same after the arrival
 * @param wholeBeforeUs length of a shape before the arrival once its neighbours are known: what is
 *     cut off its tails is given to them, and makes them move more than they do
 * @param wholeAfterUs the same after the arrival
 * @param searchUs a missing potential is looked for at least this far from its usual place
 * @param farthestSearchUs and at most this far
 * @param presentRatio size over the usual from which a potential is present
 * @param absentRatio size over the usual under which a potential may be absent
 * @param certaintyRatio how many standard errors must lie between absent and the usual size
 * @param smallestSnr peak to peak over noise from which a potential is reported
 */
public record PotentialSettings(
    double shapeBeforeUs,
    double shapeAfterUs,
    double wholeBeforeUs,
    double wholeAfterUs,
    double searchUs,
    double farthestSearchUs,
    double presentRatio,
    double absentRatio,
    double certaintyRatio,
    double smallestSnr) {

  /** Refuses values that cannot work. */
  public PotentialSettings {
    if (!(shapeBeforeUs >= 200 && shapeAfterUs >= 200)) {
      throw new IllegalArgumentException(
          "shapeBeforeUs and shapeAfterUs must be 200 us or more, found "
              + shapeBeforeUs
              + " and "
              + shapeAfterUs);
    }
    if (!(wholeBeforeUs >= shapeBeforeUs && wholeAfterUs >= shapeAfterUs)) {
      throw new IllegalArgumentException(
          "wholeBeforeUs and wholeAfterUs must be at least shapeBeforeUs and shapeAfterUs, found "
              + wholeBeforeUs
              + " and "
              + wholeAfterUs);
    }
    if (!(absentRatio > 0 && absentRatio < presentRatio && presentRatio < 1)) {
      throw new IllegalArgumentException(
          "0 < absentRatio < presentRatio < 1 is required, found "
              + absentRatio
              + " and "
              + presentRatio);
    }
  }

  /** The engineering choices as shipped. */
  public static PotentialSettings defaults() {
    return new PotentialSettings(800, 1100, 1000, 1500, 300, 1000, 0.5, 0.3, 4.5, 4.7);
  }

  /** Longest shape, in samples. */
  int shapeSamples(TimeBase timeBase) {
    return (int) Math.ceil(timeBase.lengthSamples(shapeBeforeUs))
        + (int) Math.ceil(timeBase.lengthSamples(shapeAfterUs))
        + 1;
  }

  /** The same for shapes whose neighbours are known. */
  PotentialSettings whole() {
    return withReachUs(wholeBeforeUs, wholeAfterUs);
  }

  /** The same with longer or shorter shapes, none of them to become longer. */
  PotentialSettings withReachUs(double beforeUs, double afterUs) {
    return new PotentialSettings(
        beforeUs,
        afterUs,
        beforeUs,
        afterUs,
        searchUs,
        farthestSearchUs,
        presentRatio,
        absentRatio,
        certaintyRatio,
        smallestSnr);
  }

  /** The same with another smallest SNR. */
  public PotentialSettings withSmallestSnr(double value) {
    return new PotentialSettings(
        shapeBeforeUs,
        shapeAfterUs,
        wholeBeforeUs,
        wholeAfterUs,
        searchUs,
        farthestSearchUs,
        presentRatio,
        absentRatio,
        certaintyRatio,
        value);
  }
}
