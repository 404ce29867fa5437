package org.lonefibre.model.motorunit;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;
import org.lonefibre.model.fibre.FibrePotential;
import org.lonefibre.signal.random.RandomStream;

/**
 * Counts the fibres of a spike: those whose potentials make a part of its steepest slope, at that
 * moment and in its direction.
 *
 * <ul>
 *   <li>Only fibres that can give a twentieth of the smallest spike are asked.
 *   <li>Places are judged on all processors; the answer does not depend on how many.
 * </ul>
 */
final class SpikeCounter {

  private static final int MOST = 5;
  private static final double LENGTH_US = 30_000;
  private static final int SITES_PER_SPIKE = 40;
  private static final int BATCH = 64;
  private static final double ASKED_RATIO = 0.05;

  private final SampleMuscle muscle;
  private final double shareRatio;
  private final double leastUv;
  private final OnePole filter;

  SpikeCounter(SampleMuscle muscle, double shareRatio, double leastUv, double highPassHz) {
    require("share of the steep phase", shareRatio, 0.01, 0.9);
    require("smallest spike (uV)", leastUv, 5, 5000);
    require("high-pass (Hz)", highPassHz, 0, 5000);
    this.muscle = muscle;
    this.shareRatio = shareRatio;
    this.leastUv = leastUv;
    filter = new OnePole(highPassHz, SampleMuscle.STEP_US);
  }

  SpikeCount count(int spikes, RandomStream stream) {
    int[] found = new int[MOST];
    int taken = 0;
    int tried = 0;
    for (int first = 0; taken < spikes && first < SITES_PER_SPIKE * spikes; first += BATCH) {
      int from = first;
      int[] fibres =
          IntStream.range(from, from + BATCH)
              .parallel()
              .map(i -> ofSite(stream.child("spike").child(i)))
              .toArray();
      for (int i = 0; i < BATCH && taken < spikes; i++) {
        tried++;
        if (fibres[i] > 0) {
          found[Math.min(fibres[i], MOST) - 1]++;
          taken++;
        }
      }
    }
    List<Double> shares = new ArrayList<>();
    for (int n = 0; taken > 0 && n < MOST; n++) {
      shares.add((double) found[n] / taken);
    }
    int places = Math.max(1, spikes / 2);
    FibreDensity density = new FibreDensity(muscle, filter);
    int[] potentials =
        IntStream.range(0, places)
            .parallel()
            .map(i -> density.at(stream.child("density").child(i)))
            .toArray();
    int counted = 0;
    int sum = 0;
    for (int number : potentials) {
      counted += number > 0 ? 1 : 0;
      sum += number;
    }
    return new SpikeCount(taken, tried, shares, counted == 0 ? 0 : (double) sum / counted);
  }

  /** Number of fibres of the largest spike of a unit at a place; 0 if it is too small. */
  private int ofSite(RandomStream stream) {
    List<PlacedFibre> asked = new ArrayList<>();
    double mostUv = 0;
    for (PlacedFibre fibre : muscle.unit(stream)) {
      double own = muscle.mostUv(fibre);
      if (own > ASKED_RATIO * leastUv) {
        asked.add(fibre);
        mostUv += own;
      }
    }
    return mostUv < leastUv ? 0 : ofSpike(asked);
  }

  private int ofSpike(List<PlacedFibre> fibres) {
    double[][] all = new double[fibres.size()][];
    double[] sum = new double[(int) (LENGTH_US / SampleMuscle.STEP_US)];
    for (int f = 0; f < all.length; f++) {
      all[f] = new double[sum.length];
      add(muscle.potential(fibres.get(f)), filter, all[f]);
      for (int i = 0; i < sum.length; i++) {
        sum[i] += all[f][i];
      }
    }
    int steep = steepest(sum);
    double slope = sum[steep + 1] - sum[steep - 1];
    if (new Flank(sum, steep).heightUv() < leastUv) {
      return 0;
    }
    int count = 0;
    for (double[] own : all) {
      count += (own[steep + 1] - own[steep - 1]) / slope >= shareRatio ? 1 : 0;
    }
    return count;
  }

  static int steepest(double[] values) {
    int steep = 1;
    for (int i = 1; i < values.length - 1; i++) {
      if (Math.abs(values[i + 1] - values[i - 1])
          > Math.abs(values[steep + 1] - values[steep - 1])) {
        steep = i;
      }
    }
    return steep;
  }

  /** Adds a potential, filtered, from its end-plate's firing on. */
  static void add(FibrePotential potential, OnePole filter, double[] sum) {
    double[] raw = new double[sum.length];
    double[] values = potential.copyUv();
    int start = (int) Math.round(potential.startUs() / SampleMuscle.STEP_US);
    System.arraycopy(
        values, 0, raw, start, Math.max(0, Math.min(values.length, raw.length - start)));
    double[] filtered = filter.filtered(raw);
    for (int i = 0; i < sum.length; i++) {
      sum[i] += filtered[i];
    }
  }

  private static void require(String what, double value, double low, double high) {
    if (!(value >= low && value <= high)) {
      throw new IllegalArgumentException(
          what + " must be " + low + " to " + high + ", found " + value);
    }
  }
}
