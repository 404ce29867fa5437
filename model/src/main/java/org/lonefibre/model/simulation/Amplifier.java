package org.lonefibre.model.simulation;

import org.lonefibre.signal.random.RandomStream;
import org.lonefibre.signal.recording.TimeBase;

/** Noise, hum, high-pass and converter. */
final class Amplifier {

  private static final double MAINS_HZ = 50;
  private static final double SHELF_HZ = 1200;

  private final AmplifierSettings settings;
  private final double rateHz;
  private final double reddeningRatio;

  Amplifier(AmplifierSettings settings, TimeBase timeBase, double reddeningRatio) {
    this.settings = settings;
    this.rateHz = timeBase.samplingRateHz();
    this.reddeningRatio = reddeningRatio;
  }

  /** The low-pass that the sampling rate allows. */
  double lowPassHz() {
    return Math.min(settings.lowPassHz(), 0.42 * rateHz);
  }

  /** Adds noise and hum, filters, converts. The samples given are used up. */
  float[] convert(double[] samples, RandomStream stream) {
    addNoise(samples, stream.child("noise"));
    addMains(samples, stream.child("mains"));
    if (settings.highPassHz() > 0) {
      Biquad.onePoleHighPass(settings.highPassHz(), rateHz).filter(samples);
    }
    double resolution = settings.resolutionUv();
    float[] stored = new float[samples.length];
    for (int i = 0; i < samples.length; i++) {
      double step = Math.rint(samples[i] / resolution);
      stored[i] = (float) (Math.max(-32_768, Math.min(32_767, step)) * resolution);
    }
    return stored;
  }

  private void addNoise(double[] samples, RandomStream stream) {
    if (settings.noiseUv() == 0) {
      return;
    }
    double size = settings.noiseUv() / deviationOfShapedWhiteNoise();
    double[] noise = new double[samples.length];
    for (int i = 0; i < noise.length; i++) {
      noise[i] = size * stream.gaussianRatio();
    }
    shape(noise);
    for (int i = 0; i < samples.length; i++) {
      samples[i] += noise[i];
    }
  }

  /** Everything the noise passes before the high-pass, which comes later with the rest. */
  private void shape(double[] noise) {
    if (reddeningRatio > 0) {
      Biquad.lowShelf(SHELF_HZ, reddeningRatio, rateHz).filter(noise);
    }
    for (Biquad section : Biquad.fourthOrderLowPass(lowPassHz(), rateHz)) {
      section.filter(noise);
    }
  }

  /** Root of the energy of the impulse response, high-pass included. */
  private double deviationOfShapedWhiteNoise() {
    double[] impulse = new double[1 << 16];
    impulse[0] = 1;
    shape(impulse);
    if (settings.highPassHz() > 0) {
      Biquad.onePoleHighPass(settings.highPassHz(), rateHz).filter(impulse);
    }
    double energy = 0;
    for (double value : impulse) {
      energy += value * value;
    }
    return Math.sqrt(energy);
  }

  private void addMains(double[] samples, RandomStream stream) {
    if (settings.mainsUv() == 0) {
      return;
    }
    double phase = 2 * Math.PI * stream.uniformProbability();
    for (int i = 0; i < samples.length; i++) {
      samples[i] +=
          settings.mainsUv() * StrictMath.sin(2 * Math.PI * MAINS_HZ * i / rateHz + phase);
    }
  }
}
