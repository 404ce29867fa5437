package org.lonefibre.model.fibre;

import java.util.OptionalDouble;

/**
 * Amplitude of a fibre's potential over its distance along the core's normal, from the fibre's own
 * radius to 6 mm, as recorded.
 *
 * <ul>
 *   <li>Solved at {@value #PLACES} distances that grow by a constant ratio; read in between along
 *       straight lines of the logarithms.
 *   <li>Thread rule: immutable.
 * </ul>
 */
public final class FallOff {

  private static final int PLACES = 26;
  private static final double FARTHEST_MM = 6;

  private final double[] distancesMm = new double[PLACES];
  private final double[] amplitudesUv = new double[PLACES];

  /**
   * Solves it.
   *
   * @param solver the needle
   * @param fibre the fibre; its distance is ignored
   * @param stepUs time between values, 0.1 to 20 us
   * @param pickup what stands after the needle
   */
  public FallOff(NeedlePotentialSolver solver, FibreGeometry fibre, double stepUs, Pickup pickup) {
    double nearestMm = 1.05 * fibre.diameterUm() / 2000;
    for (int i = 0; i < PLACES; i++) {
      distancesMm[i] = nearestMm * Math.pow(FARTHEST_MM / nearestMm, i / (PLACES - 1.0));
      amplitudesUv[i] =
          solver.solve(fibre.withDistanceMm(distancesMm[i]), stepUs, pickup).amplitudeUv();
    }
  }

  /** Number of distances. */
  public int size() {
    return PLACES;
  }

  /** A distance. */
  public double distanceMm(int index) {
    return distancesMm[index];
  }

  /** The amplitude there. */
  public double amplitudeUv(int index) {
    return amplitudesUv[index];
  }

  /** The farthest distance with an amplitude; empty if none has it, or all. */
  public OptionalDouble distanceAt(double amplitudeUv) {
    for (int i = PLACES - 1; i > 0; i--) {
      if (amplitudesUv[i] < amplitudeUv && amplitudesUv[i - 1] >= amplitudeUv) {
        double share =
            Math.log(amplitudesUv[i - 1] / amplitudeUv)
                / Math.log(amplitudesUv[i - 1] / amplitudesUv[i]);
        return OptionalDouble.of(
            distancesMm[i - 1] * Math.pow(distancesMm[i] / distancesMm[i - 1], share));
      }
    }
    return OptionalDouble.empty();
  }
}
