package org.lonefibre.analysis.grading;

import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.stream.IntStream;
import org.lonefibre.analysis.conditioning.ConditionedSignal;
import org.lonefibre.analysis.potential.TrackedPotential;
import org.lonefibre.analysis.potential.TrackedUnit;
import org.lonefibre.signal.robust.RobustStatistics;

/**
 * What the potentials of a unit leave in each other when they are taken out, as a deviation.
 *
 * <ul>
 *   <li>Any potential leaves half a hundredth of its size.
 *   <li>One that changes from sweep to sweep, because a second fibre in it moves, leaves that
 *       change as well: only its mean shape can be taken out. The more those fibres jitter, the
 *       more is left, and a lone fibre beside them would be taken for two just because the patient
 *       jitters. So the least constant potential is judged first, and what is found to move in it
 *       is allowed for in those that are judged after it.
 *   <li>Thread rule: for one unit, by one thread.
 * </ul>
 */
final class NeighbourRests {

  private static final double NEAR_US = 300;

  /**
   * What alignment leaves of a potential, and what a neighbour 300 us away leaves when it is taken
   * out, over their sizes; the latter falls with distance. Engineering choices, from simulation.
   */
  private static final double LEFT_RATIO = 0.005;

  private static final double LEFT_DECAY_US = 800;

  /** A second fibre in a potential lies near it: what moves is soon over. Engineering choice. */
  private static final double MOVING_DECAY_US = 400;

  private static final double CORE_US = 400;
  private static final double LARGEST_SHARE = 0.2;

  private final ConditionedSignal signal;
  private final List<TrackedPotential> potentials;
  private final double[] changeUv;
  private final double[] movesUv;

  /**
   * @param sweeps those of each potential of the unit
   */
  NeighbourRests(ConditionedSignal signal, TrackedUnit unit, List<AlignedSweeps> sweeps) {
    this.signal = signal;
    this.potentials = unit.potentials();
    this.changeUv = sweeps.stream().mapToDouble(this::changeUv).toArray();
    this.movesUv = new double[changeUv.length];
  }

  /** Numbers of the potentials, the least constant first. */
  int[] leastConstantFirst() {
    return IntStream.range(0, changeUv.length)
        .boxed()
        .sorted(Comparator.comparingDouble((Integer p) -> changeUv[p]).reversed())
        .mapToInt(Integer::intValue)
        .toArray();
  }

  /** Something was found to move in a potential. */
  void moves(int potential) {
    movesUv[potential] = changeUv[potential];
  }

  /** What alignment of a potential and taking out of the others may leave, as now known. */
  double leftoverUv(int potential) {
    double sum = LEFT_RATIO * potentials.get(potential).shape().peakToPeakUv();
    for (int other = 0; other < potentials.size(); other++) {
      if (other != potential) {
        double beyondUs = Math.max(0, awayUs(other, potential) - NEAR_US);
        double sizeUv = potentials.get(other).shape().peakToPeakUv();
        sum +=
            LEFT_RATIO * sizeUv * Math.exp(-beyondUs / LEFT_DECAY_US)
                + movesUv[other] * Math.exp(-beyondUs / MOVING_DECAY_US);
      }
    }
    return sum;
  }

  private double awayUs(int one, int other) {
    return signal
        .timeBase()
        .durationUs(
            Math.abs(potentials.get(one).lagSamples() - potentials.get(other).lagSamples()));
  }

  /** Deviation beyond noise of the points about the arrival, where it is largest. */
  private double changeUv(AlignedSweeps sweeps) {
    if (sweeps.zeroPhase.isEmpty()) {
      return 0;
    }
    int reach = (int) signal.timeBase().lengthSamples(CORE_US);
    int from = Math.max(0, sweeps.origin - reach);
    int to = Math.min(sweeps.length, sweeps.origin + reach + 1);
    double noise = signal.forTiming().noiseUv();
    double[] beyond = new double[to - from];
    double[] column = new double[sweeps.zeroPhase.size()];
    for (int k = from; k < to; k++) {
      for (int i = 0; i < column.length; i++) {
        column[i] = sweeps.zeroPhase.get(i)[k];
      }
      double deviation = RobustStatistics.standardDeviation(column);
      beyond[k - from] = Math.max(0, deviation * deviation - noise * noise);
    }
    Arrays.sort(beyond);
    int kept = Math.max(1, (int) Math.round(LARGEST_SHARE * beyond.length));
    double sum = 0;
    for (int k = beyond.length - kept; k < beyond.length; k++) {
      sum += beyond[k];
    }
    return Math.sqrt(sum / kept);
  }
}
