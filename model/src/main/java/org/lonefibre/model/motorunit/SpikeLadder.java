package org.lonefibre.model.motorunit;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/**
 * The fibres of one unit in order of their distance from a needle's core, each with its share of
 * the steepest slope of the spike they make together.
 *
 * <ul>
 *   <li>A share is the fibre's own slope at that moment over the slope of the sum; all shares add
 *       up to 1, and a fibre that goes the other way then has a negative one.
 *   <li>Fibres that give less than a thousandth of the spike are left out and their shares summed.
 * </ul>
 *
 * @param amplitudeUv maximum minus minimum of the spike, filtered
 * @param rungs the fibres, the nearest first
 * @param restRatio share of all that are left out
 */
public record SpikeLadder(double amplitudeUv, List<Rung> rungs, double restRatio) {

  private static final double LENGTH_US = 30_000;
  private static final double LEAST_RATIO = 0.001;

  /**
   * A fibre.
   *
   * @param distanceMm from the core to its axis
   * @param amplitudeUv maximum minus minimum of what it gives, filtered
   * @param shareRatio of the steepest slope
   */
  public record Rung(double distanceMm, double amplitudeUv, double shareRatio) {}

  /** Copies the list. */
  public SpikeLadder {
    rungs = List.copyOf(rungs);
  }

  static SpikeLadder of(SampleMuscle muscle, List<PlacedFibre> fibres, double highPassHz) {
    OnePole filter = new OnePole(highPassHz, SampleMuscle.STEP_US);
    int length = (int) (LENGTH_US / SampleMuscle.STEP_US);
    List<PlacedFibre> near = new ArrayList<>();
    List<double[]> all = new ArrayList<>();
    double[] sum = new double[length];
    for (PlacedFibre fibre : fibres) {
      if (muscle.mostUv(fibre) > 0) {
        double[] own = new double[length];
        SpikeCounter.add(muscle.potential(fibre), filter, own);
        for (int i = 0; i < length; i++) {
          sum[i] += own[i];
        }
        near.add(fibre);
        all.add(own);
      }
    }
    if (near.isEmpty()) {
      return new SpikeLadder(0, List.of(), 0);
    }
    int steep = SpikeCounter.steepest(sum);
    double slope = sum[steep + 1] - sum[steep - 1];
    double spikeUv = span(sum);
    List<Rung> rungs = new ArrayList<>();
    double rest = 1;
    for (int f = 0; f < near.size(); f++) {
      double[] own = all.get(f);
      double share = (own[steep + 1] - own[steep - 1]) / slope;
      if (Math.abs(share) >= LEAST_RATIO) {
        rungs.add(new Rung(near.get(f).distanceMm(), span(own), share));
        rest -= share;
      }
    }
    rungs.sort(Comparator.comparingDouble(Rung::distanceMm));
    return new SpikeLadder(spikeUv, rungs, rest);
  }

  private static double span(double[] values) {
    double low = values[0];
    double high = values[0];
    for (double value : values) {
      low = Math.min(low, value);
      high = Math.max(high, value);
    }
    return high - low;
  }
}
