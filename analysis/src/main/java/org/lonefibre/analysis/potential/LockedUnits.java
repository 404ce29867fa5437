package org.lonefibre.analysis.potential;

import java.util.Arrays;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import org.lonefibre.signal.robust.RobustStatistics;

/**
 * Makes units one that discharge together, at a fixed time of each other: nearly all discharges of
 * the one with fewer, or most of both, if some of either are wrong. Two units fall so near each
 * other by chance in one discharge of a hundred.
 */
final class LockedUnits {

  private static final double TOGETHER_MS = 15;

  /** Engineering choice, by simulation. */
  private static final double MOST_OF_BOTH = 0.6;

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
    double[] delays = delays(one, other);
    if (delays.length == 0) {
      return null;
    }
    double usual = RobustStatistics.median(delays);
    return isUsual(delays, usual, one, other) ? joined(one, other, usual) : null;
  }

  /**
   * The same for two units each of which was taken up now at one, now at another of two like
   * potentials, the one always where the other is not: it discharges as far before the other as
   * behind it. The first is put where the earlier one was.
   */
  @Nullable UnitTrack joinMirrored(UnitTrack one, UnitTrack other) {
    double[] delays = delays(one, other);
    double[] apart = Arrays.stream(delays).map(Math::abs).toArray();
    if (apart.length == 0) {
      return null;
    }
    double usual = RobustStatistics.median(apart);
    if (usual < 2 * wander || !isUsual(apart, usual, one, other)) {
      return null;
    }
    UnitTrack straight = one.copy();
    for (int d = 0; d < one.discharges; d++) {
      double delay = other.nearest(one.reference[d]) - one.reference[d];
      if (Math.abs(delay + usual) < wander) {
        straight.takeUpAt(d, straight.reference[d] + delay);
      }
    }
    return straight.isInOrder() ? joined(straight, other, usual) : null;
  }

  private boolean isUsual(double[] delays, double usual, UnitTrack one, UnitTrack other) {
    double enough =
        Math.min(
            least * Math.min(one.discharges, other.discharges),
            MOST_OF_BOTH * Math.max(one.discharges, other.discharges));
    long near = Arrays.stream(delays).filter(delay -> Math.abs(delay - usual) < wander).count();
    return near >= Math.max(1, enough);
  }

  private static UnitTrack joined(UnitTrack one, UnitTrack other, double delay) {
    UnitTrack joined =
        one.with(
            IntStream.range(0, one.potentials).toArray(),
            Arrays.stream(other.lag).map(lag -> lag + delay).toArray());
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
