package org.lonefibre.model.fibre;

import java.util.Arrays;
import org.jtransforms.fft.DoubleFFT_1D;

/**
 * Amplitude spectrum of a potential.
 *
 * <ul>
 *   <li>The potential is taken as zero beyond its ends; steps of {@value #STEP_HZ} Hz or less.
 *   <li>Thread rule: immutable.
 * </ul>
 */
public final class PotentialSpectrum {

  private static final double STEP_HZ = 10;
  private static final double HALF_POWER = Math.sqrt(0.5);

  private final double stepHz;
  private final double[] amplitudes;
  private final int peak;

  /** The spectrum of a potential. */
  public PotentialSpectrum(FibrePotential potential) {
    int wanted = (int) Math.max(potential.size(), 1e6 / (STEP_HZ * potential.stepUs()));
    int size = Integer.highestOneBit(2 * wanted - 1);
    double[] values = Arrays.copyOf(potential.copyUv(), size);
    new DoubleFFT_1D(size).realForward(values);
    stepHz = 1e6 / (size * potential.stepUs());
    amplitudes = new double[size / 2];
    int largest = 1;
    for (int i = 1; i < amplitudes.length; i++) {
      amplitudes[i] = Math.hypot(values[2 * i], values[2 * i + 1]) * potential.stepUs() * 1e-6;
      largest = amplitudes[i] > amplitudes[largest] ? i : largest;
    }
    peak = largest;
  }

  /** Amplitude at a frequency, in uV per Hz; 0 beyond half the sampling rate. */
  public double amplitudeUvPerHz(double frequencyHz) {
    double place = frequencyHz / stepHz;
    int below = (int) place;
    return below < 0 || below + 1 >= amplitudes.length
        ? 0
        : amplitudes[below] + (place - below) * (amplitudes[below + 1] - amplitudes[below]);
  }

  /** Where it is largest. */
  public double peakHz() {
    return peak * stepHz;
  }

  /** Where, below the peak, the power is half. */
  public double lowerHalfHz() {
    int i = peak;
    while (i > 1 && amplitudes[i] > HALF_POWER * amplitudes[peak]) {
      i--;
    }
    return i * stepHz;
  }

  /** Where, above the peak, the power is half. */
  public double upperHalfHz() {
    int i = peak;
    while (i < amplitudes.length - 1 && amplitudes[i] > HALF_POWER * amplitudes[peak]) {
      i++;
    }
    return i * stepHz;
  }
}
