package org.lonefibre.model.simulation;

/**
 * What units of a study do beyond firing steadily; all 0 by default.
 *
 * @param doubletProbability that a discharge is followed at once by another, 0 to 1
 * @param doubletMs mean interval of such two, 3 to 30 ms
 * @param pauseShareRatio share of units that pause once, for a fifth of the recording, 0 to 1
 * @param extraDriftRatio slow swing of the mean interval, added to the usual 0.05; 0 to 0.4
 * @param recoveryPerMsUs velocity recovery: by how much a fibre arrives later for each ms by which
 *     the interval before is longer than the mean; each fibre's own, Gaussian about 0 with this
 *     deviation, 0 to 20 us
 */
public record ActivitySettings(
    double doubletProbability,
    double doubletMs,
    double pauseShareRatio,
    double extraDriftRatio,
    double recoveryPerMsUs) {

  /** Refuses what lies outside the stated ranges. */
  public ActivitySettings {
    require("activity.doubletProbability", doubletProbability, 0, 1, "");
    require("activity.doubletMs", doubletMs, 3, 30, "ms");
    require("activity.pauseShareRatio", pauseShareRatio, 0, 1, "");
    require("activity.extraDriftRatio", extraDriftRatio, 0, 0.4, "");
    require("activity.recoveryPerMsUs", recoveryPerMsUs, 0, 20, "us");
  }

  /** Steady firing. */
  public static ActivitySettings steady() {
    return new ActivitySettings(0, 8, 0, 0, 0);
  }

  private static void require(String what, double value, double low, double high, String unit) {
    if (!(value >= low && value <= high)) {
      throw new IllegalArgumentException(
          (what + " must be " + low + " to " + high + " " + unit).strip() + ", found " + value);
    }
  }
}
