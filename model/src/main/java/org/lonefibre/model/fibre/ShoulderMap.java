package org.lonefibre.model.fibre;

import org.lonefibre.signal.random.RandomStream;

/**
 * What a second fibre does to a potential, by its size and its delay: how it shows, and by how much
 * it biases the measured jitter.
 *
 * <ul>
 *   <li>Both fibres are alike; the second lies as far off as its size asks for, so a small one is
 *       slow too. Delays are between steepest points.
 *   <li>It shows as a notch if the sum turns twice more than the potential alone, swings under
 *       {@value #NOTCH_RATIO} of the amplitude left out; as a shoulder if its slope turns more
 *       often, swings under {@value #SHOULDER_RATIO} of the steepest left out; else it is hidden. A
 *       second spike of its own is a notch too. Both shares are engineering choices: what an eye
 *       can tell from noise.
 *   <li>Bias: {@value #DISCHARGES} discharges, both end-plates with independent Gaussian jitter of
 *       the same size; arrival is where the sum crosses half of the height of its mean steep phase,
 *       straight between values. Mean consecutive difference of those over that of the potential's
 *       own arrivals.
 *   <li>Thread rule: immutable.
 * </ul>
 */
public final class ShoulderMap {

  /** How a second fibre shows. */
  public enum Appearance {
    /** As turns of its own. */
    NOTCH,
    /** As a change of slope. */
    SHOULDER,
    /** Not at all. */
    HIDDEN
  }

  private static final double NOTCH_RATIO = 0.03;
  private static final double SHOULDER_RATIO = 0.15;
  private static final int DISCHARGES = 400;
  private static final double BEFORE_US = 1500;
  private static final double AFTER_US = 2500;

  private final double[] sizes;
  private final double[] delaysUs;
  private final Appearance[][] appearances;
  private final double[][] biases;
  private final Wave first;
  private final Wave[] seconds;

  /**
   * Solves the map.
   *
   * @param solver the needle
   * @param fibre the first fibre
   * @param fallOff amplitude of such a fibre over distance, through the same pickup
   * @param pickup what stands after the needle
   * @param jitterUs mean consecutive difference of either fibre alone, 1 to 200 us
   * @param sizesRatio amplitudes of the second fibre over the first, above 0 to 1
   * @param delaysUs when it comes, after the first
   * @param stream where chance comes from
   */
  public ShoulderMap(
      NeedlePotentialSolver solver,
      FibreGeometry fibre,
      FallOff fallOff,
      Pickup pickup,
      double jitterUs,
      double[] sizesRatio,
      double[] delaysUs,
      RandomStream stream) {
    if (!(jitterUs >= 1 && jitterUs <= 200)) {
      throw new IllegalArgumentException("jitter must be 1 to 200 us, found " + jitterUs);
    }
    this.sizes = sizesRatio.clone();
    this.delaysUs = delaysUs.clone();
    appearances = new Appearance[sizesRatio.length][delaysUs.length];
    biases = new double[sizesRatio.length][delaysUs.length];
    seconds = new Wave[sizesRatio.length];
    first = Wave.of(solver.solve(fibre, Wave.STEP_US, pickup), BEFORE_US, AFTER_US);
    double[] own = jitters(jitterUs, stream.child("first"));
    double[] others = jitters(jitterUs, stream.child("second"));
    for (int s = 0; s < sizesRatio.length; s++) {
      seconds[s] = second(solver, fibre, fallOff, pickup, sizesRatio[s] * first.amplitudeUv());
      for (int d = 0; d < delaysUs.length; d++) {
        appearances[s][d] = appearance(first, seconds[s], delaysUs[d]);
        biases[s][d] = biasRatio(first, seconds[s], delaysUs[d], own, others);
      }
    }
  }

  /** What Gaussian arrivals of a mean consecutive difference lie off their mean. */
  static double[] jitters(double jitterUs, RandomStream stream) {
    double[] values = new double[DISCHARGES];
    for (int i = 0; i < values.length; i++) {
      values[i] = jitterUs * Math.sqrt(Math.PI) / 2 * stream.gaussianRatio();
    }
    return values;
  }

  /** The second fibre about where it gives an amplitude, then made exactly that large. */
  private static Wave second(
      NeedlePotentialSolver solver,
      FibreGeometry fibre,
      FallOff fallOff,
      Pickup pickup,
      double amplitudeUv) {
    double distanceMm = fallOff.distanceAt(amplitudeUv).orElse(fibre.distanceMm());
    FibrePotential there = solver.solve(fibre.withDistanceMm(distanceMm), Wave.STEP_US, pickup);
    Wave wave = Wave.of(there, BEFORE_US, AFTER_US);
    return wave.times(amplitudeUv / wave.amplitudeUv());
  }

  private static Appearance appearance(Wave first, Wave second, double delayUs) {
    Wave sum = first.plus(second, delayUs);
    if (sum.turns(NOTCH_RATIO * sum.amplitudeUv())
        >= first.turns(NOTCH_RATIO * first.amplitudeUv()) + 2) {
      return Appearance.NOTCH;
    }
    return sum.slopes().turns(SHOULDER_RATIO * sum.steepest())
            > first.slopes().turns(SHOULDER_RATIO * first.steepest())
        ? Appearance.SHOULDER
        : Appearance.HIDDEN;
  }

  /** Measured jitter over true jitter, with what each arrival lies off its mean. */
  static double biasRatio(Wave first, Wave second, double delayUs, double[] own, double[] others) {
    double levelUv = first.middleLevelUv(second, delayUs);
    double meanUs = first.crossingUs(second, delayUs, levelUv, 0);
    double measured = 0;
    double truth = 0;
    double last = 0;
    for (int i = 0; i < own.length; i++) {
      double apartUs = delayUs + others[i] - own[i];
      double at = own[i] + first.crossingUs(second, apartUs, levelUv, meanUs - own[i]);
      if (i > 0) {
        measured += Math.abs(at - last);
        truth += Math.abs(own[i] - own[i - 1]);
      }
      last = at;
    }
    return measured / truth;
  }

  /** Number of sizes. */
  public int sizes() {
    return sizes.length;
  }

  /** A size. */
  public double sizeRatio(int size) {
    return sizes[size];
  }

  /** Number of delays. */
  public int delays() {
    return delaysUs.length;
  }

  /** A delay. */
  public double delayUs(int delay) {
    return delaysUs[delay];
  }

  /** How the second fibre shows. */
  public Appearance appearance(int size, int delay) {
    return appearances[size][delay];
  }

  /** Measured jitter over true jitter. */
  public double biasRatio(int size, int delay) {
    return biases[size][delay];
  }

  /** The potential alone; its steepest point is at 0. */
  public FibrePotential alone() {
    return first.potential();
  }

  /** The second fibre's potential, on the same time. */
  public FibrePotential second(int size, int delay) {
    return first.times(0).plus(seconds[size], delaysUs[delay]).potential();
  }

  /** Both together, on the same time. */
  public FibrePotential sum(int size, int delay) {
    return first.plus(seconds[size], delaysUs[delay]).potential();
  }
}
