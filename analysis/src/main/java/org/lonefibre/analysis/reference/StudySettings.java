package org.lonefibre.analysis.reference;

/**
 * How signals become a study.
 *
 * @param closeCallUs a value this close to an individual limit is too close to call; default 2 us,
 *     comparison of outlier methods 2020
 * @param minimumDifferences a signal that would have had this many differences had it not blocked
 *     counts as raised when it has no number; default 20, engineering choice
 */
public record StudySettings(double closeCallUs, int minimumDifferences) {

  /** Refuses values below 0. */
  public StudySettings {
    if (!(closeCallUs >= 0 && minimumDifferences >= 0)) {
      throw new IllegalArgumentException(
          "closeCallUs must be 0 us or more and minimumDifferences 0 or more, found "
              + closeCallUs
              + " and "
              + minimumDifferences);
    }
  }

  /** The values in use unless told otherwise. */
  public static StudySettings defaults() {
    return new StudySettings(2, 20);
  }

  /** The same with another width of what is too close to call, in us. */
  public StudySettings withCloseCallUs(double us) {
    return new StudySettings(us, minimumDifferences);
  }
}
