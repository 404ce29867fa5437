package org.lonefibre.model.simulation;

/**
 * A needle that slips along its shaft during the recording, in small steps.
 *
 * <p>All near fibres, and those of a sample muscle, give another potential after each step; a fibre
 * that would come to lie in the needle is pushed aside. Arrivals stay.
 *
 * @param stepUm towards the tip, -200 to 200 um; 0 for a still needle
 * @param everyS time between steps, 0.2 s or more
 */
public record MovementSettings(double stepUm, double everyS) {

  /** Refuses what lies outside the stated ranges. */
  public MovementSettings {
    if (!(Math.abs(stepUm) <= 200)) {
      throw new IllegalArgumentException(
          "step of the needle must be -200 to 200 um, found " + stepUm);
    }
    if (!(everyS >= 0.2 && everyS <= 1e6)) {
      throw new IllegalArgumentException(
          "time between steps of the needle must be 0.2 s or more, found " + everyS);
    }
  }

  /** A still needle. */
  public static MovementSettings none() {
    return new MovementSettings(0, 1);
  }

  /** Steps taken at a time. */
  int steps(double timeS) {
    return stepUm == 0 ? 0 : (int) Math.max(0, Math.floor(timeS / everyS));
  }
}
