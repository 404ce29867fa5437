package org.lonefibre.analysis.potential;

/**
 * How far the units of a site are known, which says what may be taken for a potential.
 *
 * <p>Sizes are in parts of the smallest one that is reported.
 */
enum Stage {

  /** A unit may still hold discharges of another: what those leave in the mean is no potential. */
  MIXED(0.8, 0.45),

  /** Units are told apart: what recurs is their own, though it hardly stands out of noise. */
  APART(0.5, 0.2);

  private final double sizeRatio;
  private final double slopeRatio;

  Stage(double sizeRatio, double slopeRatio) {
    this.sizeRatio = sizeRatio;
    this.slopeRatio = slopeRatio;
  }

  /** Least peak to peak of a shape; the signal for timing halves a slow one. */
  double sizeRatio() {
    return sizeRatio;
  }

  /** Least slope in the mean of all discharges; one that moves is less steep there. */
  double slopeRatio() {
    return slopeRatio;
  }
}
