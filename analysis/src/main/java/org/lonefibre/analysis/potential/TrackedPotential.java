package org.lonefibre.analysis.potential;

/**
 * One potential of a motor unit in every discharge.
 *
 * <ul>
 *   <li>Thread rule: immutable, free to share.
 * </ul>
 */
public final class TrackedPotential {

  private final PotentialShape shape;
  private final PotentialShape timingShape;
  private final double lag;
  private final double toSteepest;
  private final double[] arrival;
  private final double[] error;
  private final double[] scale;
  private final Presence[] presence;
  private final double scaleErrorRatio;

  private TrackedPotential(
      PotentialShape shape,
      PotentialShape timingShape,
      double lag,
      double toSteepest,
      double[] arrival,
      double[] error,
      double[] scale,
      Presence[] presence,
      double scaleErrorRatio) {
    this.shape = shape;
    this.timingShape = timingShape;
    this.lag = lag;
    this.toSteepest = toSteepest;
    this.arrival = arrival;
    this.error = error;
    this.scale = scale;
    this.presence = presence;
    this.scaleErrorRatio = scaleErrorRatio;
  }

  /**
   * @param shape as in the conditioned signal
   * @param base standard error of the arrival that noise alone gives, in samples
   * @param scaleErrorRatio standard error of the scale of its arrivals
   */
  static TrackedPotential of(
      UnitTrack unit, int p, PotentialShape shape, double base, double scaleErrorRatio) {
    double toSteepest = steepest(shape) - shape.origin();
    int n = unit.discharges;
    double[] arrival = new double[n];
    double[] error = new double[n];
    double[] scale = new double[n];
    Presence[] presence = new Presence[n];
    for (int d = 0; d < n; d++) {
      arrival[d] = unit.arrival[d][p] + toSteepest;
      error[d] =
          base
              * unit.widening[d][p]
              * Math.sqrt(Math.max(1, unit.misfit[d][p]))
              / Math.max(0.2, unit.scale[d][p]);
      scale[d] = unit.scale[d][p];
      presence[d] = unit.presence[d][p];
    }
    return new TrackedPotential(
        shape,
        unit.shape[p],
        unit.lag[p] + toSteepest,
        toSteepest,
        arrival,
        error,
        scale,
        presence,
        scaleErrorRatio);
  }

  /** Where the shape is steepest, between samples. */
  private static double steepest(PotentialShape shape) {
    double[] v = shape.samples();
    int best = 2;
    for (int k = 2; k < v.length - 2; k++) {
      if (Math.abs(v[k + 1] - v[k - 1]) > Math.abs(v[best + 1] - v[best - 1])) {
        best = k;
      }
    }
    double left = Math.abs(v[best] - v[best - 2]);
    double middle = Math.abs(v[best + 1] - v[best - 1]);
    double right = best + 2 < v.length ? Math.abs(v[best + 2] - v[best]) : 0;
    double curvature = left - 2 * middle + right;
    double shift = curvature < 0 ? 0.5 * (left - right) / curvature : 0;
    return best + Math.max(-0.5, Math.min(0.5, shift));
  }

  /** Its shape. */
  public PotentialShape shape() {
    return shape;
  }

  /**
   * Takes it out of a window of the signal for timing that starts at a sample of the channel, as
   * placed in a discharge.
   */
  public void takeOut(double[] window, long startSample, int discharge) {
    timingShape.addTo(window, arrival[discharge] - toSteepest - startSample, -scale[discharge]);
  }

  /** Usual place from the reference of the discharge, in samples. */
  public double lagSamples() {
    return lag;
  }

  /** Number of discharges. */
  public int discharges() {
    return presence.length;
  }

  /** Whether it is there in a discharge. */
  public Presence presence(int discharge) {
    return presence[discharge];
  }

  /** Number of discharges in which it is present. */
  public int presentCount() {
    int count = 0;
    for (Presence state : presence) {
      count += state == Presence.PRESENT ? 1 : 0;
    }
    return count;
  }

  /** Arrival (steepest point) in samples of the channel; where it would lie if it is not there. */
  public double arrivalSamples(int discharge) {
    return arrival[discharge];
  }

  /** Standard error of the arrival, in samples. */
  public double errorSamples(int discharge) {
    return error[discharge];
  }

  /**
   * Standard error, as a share, of the scale by which all deviations of its arrivals are known; 0
   * where no larger potential reaches beneath it.
   */
  public double scaleErrorRatio() {
    return scaleErrorRatio;
  }

  /** Size over the shape. */
  public double scaleRatio(int discharge) {
    return scale[discharge];
  }
}
