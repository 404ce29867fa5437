package org.lonefibre.model.motorunit;

import java.util.OptionalDouble;
import java.util.stream.IntStream;
import org.jtransforms.fft.DoubleFFT_1D;
import org.lonefibre.model.fibre.FibrePotential;
import org.lonefibre.model.fibre.NeedleResponse;
import org.lonefibre.model.fibre.Pickup;
import org.lonefibre.signal.random.RandomStream;

/**
 * What all the fibres of a sample muscle beyond a distance give together: simulated, discharge by
 * discharge, as a power spectrum that any filter can be laid on.
 *
 * <ul>
 *   <li>Each unit fires by {@link Firing}, each end-plate has its jitter and blocking, each fibre
 *       its own potential.
 *   <li>Up to 10 kHz, through the cable.
 *   <li>Thread rule: immutable.
 * </ul>
 */
public final class MuscleBackground {

  private static final double TO_HZ = 10_000;
  private static final double HIGHEST_CUT_HZ = 5000;
  private static final double LEAD_IN_S = 0.03;

  private final double stepHz;
  private final double[] powersUv2;
  private final NeedleResponse response;

  MuscleBackground(
      SampleMuscle muscle,
      double beyondMm,
      double durationS,
      int sites,
      NeedleResponse response,
      Pickup pickup,
      RandomStream stream) {
    int size = Integer.highestOneBit((int) (1e6 * durationS / SampleMuscle.STEP_US));
    this.response = response;
    stepHz = 1e6 / (size * SampleMuscle.STEP_US);
    int bins = (int) (TO_HZ / stepHz);
    double[][] all = new double[sites][];
    IntStream.range(0, sites)
        .parallel()
        .forEach(i -> all[i] = powers(muscle, beyondMm, size, bins, stream.child(i)));
    powersUv2 = new double[bins];
    Pickup cable = new Pickup(pickup.cable(), 0);
    for (int i = 1; i < bins; i++) {
      double hz = i * stepHz;
      double gain = cable.powerRatio(hz, response.impedanceOhm(hz));
      for (double[] own : all) {
        powersUv2[i] += gain * own[i] / sites;
      }
    }
  }

  private static double[] powers(
      SampleMuscle muscle, double beyondMm, int size, int bins, RandomStream stream) {
    double[] samples = new double[size];
    SampleMuscleSettings settings = muscle.settings();
    for (int u = 0; u < settings.activeUnits(); u++) {
      RandomStream own = stream.child(u);
      double rate =
          settings.lowestRateHz()
              + (settings.highestRateHz() - settings.lowestRateHz()) * own.uniformProbability();
      double[] times =
          new Firing(FiringSettings.defaults().withRateHz(rate))
              .dischargeTimesS(-LEAD_IN_S, size * SampleMuscle.STEP_US * 1e-6, own.child("firing"));
      RandomStream delays = own.child("delays");
      for (PlacedFibre fibre : muscle.unit(own.child("fibres"))) {
        if (fibre.distanceMm() >= beyondMm) {
          add(samples, muscle.potential(fibre), times, settings, delays);
        }
      }
    }
    double[] spectrum = samples.clone();
    new DoubleFFT_1D(size).realForward(spectrum);
    double[] powers = new double[bins];
    for (int i = 1; i < bins; i++) {
      double re = spectrum[2 * i] / size;
      double im = spectrum[2 * i + 1] / size;
      powers[i] = 2 * (re * re + im * im);
    }
    return powers;
  }

  private static void add(
      double[] samples,
      FibrePotential potential,
      double[] times,
      SampleMuscleSettings settings,
      RandomStream delays) {
    double[] values = potential.copyUv();
    for (double timeS : times) {
      double delayUs = settings.jitterUs() * delays.gaussianRatio();
      if (delays.happens(settings.blockingProbability())) {
        continue;
      }
      int start =
          (int) Math.round((timeS * 1e6 + delayUs + potential.startUs()) / SampleMuscle.STEP_US);
      int from = Math.max(0, -start);
      int to = Math.min(values.length, samples.length - start);
      for (int i = from; i < to; i++) {
        samples[start + i] += values[i];
      }
    }
  }

  /** Root mean square through a causal one-pole high-pass, 0 Hz for none. */
  public double rmsUv(double highPassHz) {
    double sum = 0;
    for (int i = 1; i < powersUv2.length; i++) {
      double u = i * stepHz / Math.max(highPassHz, 1e-9);
      sum += powersUv2[i] * u * u / (1 + u * u);
    }
    return Math.sqrt(sum);
  }

  /** The same with the needle's thermal noise up to 10 kHz. */
  public double withThermalUv(double highPassHz) {
    return Math.hypot(rmsUv(highPassHz), response.thermalNoiseUv(highPassHz, TO_HZ));
  }

  /**
   * The lowest cut-off of a causal one-pole high-pass that brings it down to a target; 0 if it is
   * there already, empty if 5 kHz are not enough.
   *
   * @param targetUv root mean square wanted
   */
  public OptionalDouble lowestHighPassHz(double targetUv) {
    if (rmsUv(0) <= targetUv) {
      return OptionalDouble.of(0);
    }
    double low = 1;
    double high = HIGHEST_CUT_HZ;
    if (rmsUv(high) > targetUv) {
      return OptionalDouble.empty();
    }
    while (high / low > 1.002) {
      double middle = Math.sqrt(low * high);
      if (rmsUv(middle) > targetUv) {
        low = middle;
      } else {
        high = middle;
      }
    }
    return OptionalDouble.of(high);
  }
}
