package org.lonefibre.model.motorunit;

/**
 * A branch of the axon: what happens here happens to all its fibres together.
 *
 * @param id its name within the unit
 * @param blockingProbability that it does not conduct a discharge, 0 to 1
 * @param standardDeviationUs of its conduction time, 0 to 200 us
 */
public record AxonBranch(String id, double blockingProbability, double standardDeviationUs) {

  /** Refuses what lies outside the stated ranges. */
  public AxonBranch {
    if (!(blockingProbability >= 0 && blockingProbability <= 1)) {
      throw new IllegalArgumentException(
          "blocking probability of a branch must be 0 to 1, found " + blockingProbability);
    }
    if (!(standardDeviationUs >= 0 && standardDeviationUs <= 200)) {
      throw new IllegalArgumentException(
          "deviation of a branch's conduction time must be 0 to 200 us, found "
              + standardDeviationUs);
    }
  }
}
