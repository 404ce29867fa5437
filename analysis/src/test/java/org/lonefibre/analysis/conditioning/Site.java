package org.lonefibre.analysis.conditioning;

import java.util.Random;

/** Invented raw signals: white noise, motor units of several potentials, mains, drift. */
final class Site {

  final double rateHz;
  final double[] samples;
  private final Random random;

  Site(double rateHz, double durationS, long seed) {
    this.rateHz = rateHz;
    this.samples = new double[(int) Math.round(rateHz * durationS)];
    this.random = new Random(seed);
  }

  Site noise(double sdUv) {
    for (int i = 0; i < samples.length; i++) {
      samples[i] += sdUv * random.nextGaussian();
    }
    return this;
  }

  /**
   * A unit firing about so often, its potentials 1.1 ms apart, each smaller than the one before.
   */
  Site unit(double rateOfFiringHz, int potentials, double amplitudeUv) {
    double t = random.nextDouble() / rateOfFiringHz;
    double durationS = samples.length / rateHz;
    while (t < durationS) {
      for (int p = 0; p < potentials; p++) {
        potential(t + 0.0011 * p + 20e-6 * random.nextGaussian(), amplitudeUv / (1 + 0.7 * p));
      }
      t += Math.max(0.3, 1 + 0.12 * random.nextGaussian()) / rateOfFiringHz;
    }
    return this;
  }

  /** Triphasic, about 1 ms long: minus the second derivative of a Gaussian, leaning. */
  Site potential(double timeS, double peakToPeakUv) {
    double width = 110e-6;
    int from = (int) Math.max(0, (timeS - 8 * width) * rateHz);
    int to = (int) Math.min(samples.length, (timeS + 8 * width) * rateHz);
    for (int i = from; i < to; i++) {
      double u = (i / rateHz - timeS) / width;
      samples[i] += peakToPeakUv / 1.5 * (1 - u * u + 0.4 * u) * Math.exp(-u * u / 2);
    }
    return this;
  }

  Site sine(double frequencyHz, double amplitudeUv) {
    for (int i = 0; i < samples.length; i++) {
      samples[i] += amplitudeUv * Math.sin(2 * Math.PI * frequencyHz * i / rateHz + 0.3);
    }
    return this;
  }

  Site offset(double uv) {
    for (int i = 0; i < samples.length; i++) {
      samples[i] += uv;
    }
    return this;
  }

  MemoryRecording recording() {
    return MemoryRecording.of(samples, rateHz);
  }
}
