package org.lonefibre.model.endplate;

/**
 * What one end-plate did at each discharge of a train.
 *
 * <p>Thread rule: immutable.
 */
public final class Transmissions {

  private final boolean[] present;
  private final double[] delaysUs;

  Transmissions(boolean[] present, double[] delaysUs) {
    this.present = present;
    this.delaysUs = delaysUs;
  }

  /** Number of discharges. */
  public int size() {
    return present.length;
  }

  /** Whether the fibre fired at a discharge. */
  public boolean present(int discharge) {
    return present[discharge];
  }

  /**
   * Delay at a discharge, relative to the law's mean.
   *
   * @throws IllegalArgumentException if the discharge was blocked
   */
  public double delayUs(int discharge) {
    if (!present[discharge]) {
      throw new IllegalArgumentException("discharge " + discharge + " is blocked, it has no delay");
    }
    return delaysUs[discharge];
  }
}
