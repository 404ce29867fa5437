package org.lonefibre.analysis.potential;

import java.util.Arrays;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import org.lonefibre.signal.robust.RobustStatistics;

/** Makes units one that discharge together, at a fixed time of each other. */
final class LockedUnits {

  private static final double TOGETHER_MS = 15;

  private final double samplesPerUs;
  private final double wander;
  private final double least;

  /**
   * @param wanderUs how far a discharge may lie off the usual time
   * @param leastShare share of the discharges of the unit with fewer that must lie so near
   */
  LockedUnits(double samplesPerUs, double wanderUs, double leastShare) {
    this.samplesPerUs = samplesPerUs;
    this.wander = wanderUs * samplesPerUs;
    this.least = leastShare;
  }

  /** The first with the potentials of both, those of the second last; null if they are not one. */
  @Nullable UnitTrack join(UnitTrack one, UnitTrack other) {
    double enough = least * Math.min(one.discharges, other.discharges);
    double[] delays = delays(one, other);
    if (delays.length < Math.max(1, enough)) {
      return null;
    }
    double usual = RobustStatistics.median(delays.clone());
    long near = Arrays.stream(delays).filter(delay -> Math.abs(delay - usual) < wander).count();
    if (near < enough) {
      return null;
    }
    UnitTrack joined =
        one.with(
            IntStream.range(0, one.potentials).toArray(),
            Arrays.stream(other.lag).map(lag -> lag + usual).toArray());
    System.arraycopy(one.shape, 0, joined.shape, 0, one.potentials);
    System.arraycopy(other.shape, 0, joined.shape, one.potentials, other.potentials);
    return joined;
  }

  /** From each discharge of the first to that of the second nearest to it, if it is near. */
  private double[] delays(UnitTrack one, UnitTrack other) {
    double[] delays = new double[one.discharges];
    int n = 0;
    for (int d = 0; d < one.discharges; d++) {
      double delay = other.nearest(one.reference[d]) - one.reference[d];
      if (Math.abs(delay) < TOGETHER_MS * 1000 * samplesPerUs) {
        delays[n++] = delay;
      }
    }
    return Arrays.copyOf(delays, n);
  }
}
