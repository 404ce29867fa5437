package org.lonefibre.model.fibre;

/**
 * The potential of one fibre at the electrode, on a fine grid that starts when its end-plate fires.
 *
 * <ul>
 *   <li>Thread rule: immutable.
 * </ul>
 */
public final class FibrePotential {

  private final double stepUs;
  private final double startUs;
  private final double[] valuesUv;

  /**
   * @param startUs time of the first value after the end-plate fired
   * @param stepUs time between values, above 0
   * @param valuesUv the values, at least 8; copied
   */
  public FibrePotential(double startUs, double stepUs, double[] valuesUv) {
    if (!(stepUs > 0)) {
      throw new IllegalArgumentException("time step must be above 0 us, found " + stepUs);
    }
    if (valuesUv.length < 8) {
      throw new IllegalArgumentException(
          "a potential needs 8 values or more, found " + valuesUv.length);
    }
    this.startUs = startUs;
    this.stepUs = stepUs;
    this.valuesUv = valuesUv.clone();
  }

  /** Number of values on the grid. */
  public int size() {
    return valuesUv.length;
  }

  /** Time of the first value after the end-plate fired. */
  public double startUs() {
    return startUs;
  }

  /** Time between values. */
  public double stepUs() {
    return stepUs;
  }

  /** Time of the last value. */
  public double endUs() {
    return startUs + (valuesUv.length - 1) * stepUs;
  }

  /** A copy of the values. */
  public double[] copyUv() {
    return valuesUv.clone();
  }

  /** Maximum minus minimum. */
  public double amplitudeUv() {
    double high = valuesUv[0];
    double low = valuesUv[0];
    for (double value : valuesUv) {
      high = Math.max(high, value);
      low = Math.min(low, value);
    }
    return high - low;
  }

  /** Time of the steepest point, either direction, refined by a parabola through three slopes. */
  public double steepestUs() {
    int best = 1;
    for (int i = 1; i < valuesUv.length - 1; i++) {
      if (Math.abs(slope(i)) > Math.abs(slope(best))) {
        best = i;
      }
    }
    double shift = 0;
    if (best > 1 && best < valuesUv.length - 2) {
      double before = Math.abs(slope(best - 1));
      double at = Math.abs(slope(best));
      double after = Math.abs(slope(best + 1));
      double bend = before - 2 * at + after;
      shift = bend < 0 ? 0.5 * (before - after) / bend : 0;
    }
    return startUs + (best + shift) * stepUs;
  }

  /** Time between the peaks on either side of the steepest point. */
  public double riseTimeUs() {
    int middle = (int) Math.round((steepestUs() - startUs) / stepUs);
    middle = Math.max(1, Math.min(valuesUv.length - 2, middle));
    double sign = Math.signum(slope(middle));
    int before = middle;
    while (before > 1 && sign * slope(before) > 0) {
      before--;
    }
    int after = middle;
    while (after < valuesUv.length - 2 && sign * slope(after) > 0) {
      after++;
    }
    return (after - before) * stepUs;
  }

  private double slope(int index) {
    return valuesUv[index + 1] - valuesUv[index - 1];
  }
}
