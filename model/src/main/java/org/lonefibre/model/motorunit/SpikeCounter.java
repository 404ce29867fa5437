package org.lonefibre.model.motorunit;

import java.util.ArrayList;
import java.util.List;
import org.lonefibre.model.fibre.FibrePotential;
import org.lonefibre.signal.random.RandomStream;

/**
 * Counts the fibres of a spike: those whose potentials make a part of its steepest slope, at that
 * moment and in its direction.
 */
final class SpikeCounter {

  private static final int MOST = 5;
  private static final double WITHIN_MM = 1.5;
  private static final double LENGTH_US = 30_000;
  private static final double SITES_PER_SPIKE = 20;

  /** Criteria and place of the examination of fibre density, common practice, no source. */
  private static final double DENSITY_UV = 200;

  private static final double DENSITY_RISE_US = 300;
  private static final double BEFORE_FIBRE_MM = 0.1;

  private final SampleMuscle muscle;
  private final double shareRatio;
  private final double leastUv;
  private final OnePole filter;

  SpikeCounter(SampleMuscle muscle, double shareRatio, double leastUv, double highPassHz) {
    if (!(shareRatio >= 0.01 && shareRatio <= 0.9)) {
      throw new IllegalArgumentException("share must be 0.01 to 0.9, found " + shareRatio);
    }
    this.muscle = muscle;
    this.shareRatio = shareRatio;
    this.leastUv = leastUv;
    filter = new OnePole(highPassHz, SampleMuscle.STEP_US);
  }

  SpikeCount count(int sites, RandomStream stream) {
    int[] found = new int[MOST];
    int spikes = 0;
    int density = 0;
    int densitySites = 0;
    for (int i = 0; spikes < sites && i < SITES_PER_SPIKE * sites; i++) {
      RandomStream own = stream.child(i);
      List<PlacedFibre> unit = muscle.unit(own);
      int fibres = ofSpike(near(unit, 0, 0));
      if (fibres > 0) {
        found[Math.min(fibres, MOST) - 1]++;
        spikes++;
      }
      PlacedFibre aim = unit.isEmpty() ? null : unit.get(own.below(unit.size()));
      if (aim != null && densitySites < sites / 2) {
        density += dense(near(unit, BEFORE_FIBRE_MM - aim.outMm(), -aim.sideMm()));
        densitySites++;
      }
    }
    List<Double> shares = new ArrayList<>();
    for (int n = 0; spikes > 0 && n < MOST; n++) {
      shares.add((double) found[n] / spikes);
    }
    return new SpikeCount(spikes, shares, densitySites == 0 ? 0 : (double) density / densitySites);
  }

  /** Fibres near enough to matter, the needle elsewhere. */
  private List<PlacedFibre> near(List<PlacedFibre> unit, double outMm, double sideMm) {
    List<PlacedFibre> near = new ArrayList<>();
    for (PlacedFibre fibre : unit) {
      PlacedFibre moved = fibre.movedBy(outMm, sideMm);
      if (moved.distanceMm() < WITHIN_MM && (outMm == 0 && sideMm == 0 || muscle.isClear(moved))) {
        near.add(moved);
      }
    }
    return near;
  }

  private int dense(List<PlacedFibre> fibres) {
    int count = 0;
    for (PlacedFibre fibre : fibres) {
      FibrePotential potential = filtered(fibre);
      if (potential.amplitudeUv() >= DENSITY_UV && potential.riseTimeUs() < DENSITY_RISE_US) {
        count++;
      }
    }
    return count;
  }

  /** Number of fibres of the largest spike; 0 if it is too small. */
  private int ofSpike(List<PlacedFibre> fibres) {
    PlacedFibre nearest = SampleMuscle.nearest(fibres);
    if (nearest == null) {
      return 0;
    }
    double[][] all = new double[fibres.size()][];
    double[] sum = new double[(int) (LENGTH_US / SampleMuscle.STEP_US)];
    for (int f = 0; f < all.length; f++) {
      all[f] = new double[sum.length];
      FibrePotential potential = filtered(fibres.get(f));
      double[] values = potential.copyUv();
      int start = (int) Math.round(potential.startUs() / SampleMuscle.STEP_US);
      for (int i = 0; i < values.length && start + i < sum.length; i++) {
        all[f][start + i] = values[i];
        sum[start + i] += values[i];
      }
    }
    int steep = 1;
    for (int i = 1; i < sum.length - 1; i++) {
      if (Math.abs(sum[i + 1] - sum[i - 1]) > Math.abs(sum[steep + 1] - sum[steep - 1])) {
        steep = i;
      }
    }
    double slope = sum[steep + 1] - sum[steep - 1];
    if (flankUv(sum, steep) < leastUv) {
      return 0;
    }
    int count = 0;
    for (double[] own : all) {
      count += (own[steep + 1] - own[steep - 1]) / slope >= shareRatio ? 1 : 0;
    }
    return count;
  }

  /** Height of the flank that a place lies on. */
  private static double flankUv(double[] values, int place) {
    double sign = Math.signum(values[place + 1] - values[place - 1]);
    int first = place;
    while (first > 0 && sign * (values[first] - values[first - 1]) > 0) {
      first--;
    }
    int last = place;
    while (last < values.length - 1 && sign * (values[last + 1] - values[last]) > 0) {
      last++;
    }
    return Math.abs(values[last] - values[first]);
  }

  private FibrePotential filtered(PlacedFibre fibre) {
    FibrePotential raw = muscle.potential(fibre);
    return new FibrePotential(raw.startUs(), raw.stepUs(), filter.filtered(raw.copyUv()));
  }
}
