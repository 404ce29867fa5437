package org.lonefibre.model.leadfield;

import org.lonefibre.model.tissue.Tissue;

/**
 * What a needle is solved in, and how exactly.
 *
 * @param tissue the medium
 * @param angleDeg turn of the needle about its core's normal, -360 to 360
 * @param coreContact contact of the core
 * @param shaftContact contact of the shaft
 * @param accuracyRatio largest error of resistance and leads, as {@link MeshReport} states it,
 *     0.002 to 0.1
 */
public record LeadFieldSettings(
    Tissue tissue,
    double angleDeg,
    Contact coreContact,
    Contact shaftContact,
    double accuracyRatio) {

  /** Refuses what lies outside the ranges. */
  public LeadFieldSettings {
    if (!(Math.abs(angleDeg) <= 360)) {
      throw new IllegalArgumentException("angle must be -360 to 360 degrees, found " + angleDeg);
    }
    if (!(accuracyRatio >= 0.002 && accuracyRatio <= 0.1)) {
      throw new IllegalArgumentException("accuracy must be 0.002 to 0.1, found " + accuracyRatio);
    }
  }

  /** Muscle as in {@link Tissue#defaults}, angle 0, ideal metal, 1 % (engineering choice). */
  public static LeadFieldSettings defaults() {
    return new LeadFieldSettings(Tissue.defaults(), 0, Contact.IDEAL, Contact.IDEAL, 0.01);
  }

  /** Another medium. */
  public LeadFieldSettings withTissue(Tissue newTissue) {
    return new LeadFieldSettings(newTissue, angleDeg, coreContact, shaftContact, accuracyRatio);
  }

  /** Another angle. */
  public LeadFieldSettings withAngleDeg(double newAngleDeg) {
    return new LeadFieldSettings(tissue, newAngleDeg, coreContact, shaftContact, accuracyRatio);
  }

  /** Other contacts. */
  public LeadFieldSettings withContacts(Contact core, Contact shaft) {
    return new LeadFieldSettings(tissue, angleDeg, core, shaft, accuracyRatio);
  }

  /** Another accuracy. */
  public LeadFieldSettings withAccuracyRatio(double newAccuracyRatio) {
    return new LeadFieldSettings(tissue, angleDeg, coreContact, shaftContact, newAccuracyRatio);
  }
}
