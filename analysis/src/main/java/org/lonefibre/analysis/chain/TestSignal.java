package org.lonefibre.analysis.chain;

import java.util.ArrayList;
import java.util.List;
import org.lonefibre.signal.random.RandomStream;

/**
 * The one test signal, in continuous time, so that it can be made at any rate.
 *
 * <ul>
 *   <li>Largest value 1. Pulses are the slope of a bell curve of 60 us, strongest near 2.7 kHz, as
 *       single-fibre potentials are (engineering choice).
 *   <li>Thread rule: immutable, free to share.
 * </ul>
 */
public final class TestSignal {

  /**
   * Interval of the pairs whose interval is constant, in us: no whole number of samples at any
   * usual rate, so that rounding does not harm both pulses alike and go unseen (engineering
   * choice).
   */
  public static final double CONSTANT_INTERVAL_US = 3007.3;

  static final double WIDTH_S = 60e-6;
  static final double SINE_RATIO = 0.25;
  static final double FULL_SINE_HZ = 1000;
  private static final double JITTER_US = 25;
  private static final int PAIRS = 100;
  private static final int LAST_PAIRS = 50;
  private static final int SINES = 37;

  /**
   * Two pulses.
   *
   * @param timeS time of the first
   * @param intervalUs from the first to the second
   */
  public record Pair(double timeS, double intervalUs) {}

  /**
   * A stretch of one frequency.
   *
   * @param frequencyHz its frequency
   * @param startS where it begins, with phase 0
   * @param endS where it ends
   * @param amplitudeRatio amplitude against the pulses
   */
  public record Sine(double frequencyHz, double startS, double endS, double amplitudeRatio) {}

  private final List<Pair> pairs = new ArrayList<>();
  private final List<Sine> sines = new ArrayList<>();
  private final double durationS;

  /** The signal; it is always the same. */
  public TestSignal() {
    RandomStream random = RandomStream.of(1);
    double at = addPairs(0.7, PAIRS, 0, random);
    at = addPairs(at, PAIRS, JITTER_US, random);
    for (int i = 0; i < SINES; i++) {
      double frequency = 5 * Math.pow(2, i / 3.0);
      double length = Math.max(0.3, 6 / frequency);
      sines.add(new Sine(frequency, at, at + length, SINE_RATIO));
      at += length + 0.05;
    }
    at = addPairs(at + 0.2, LAST_PAIRS, 0, random);
    sines.add(new Sine(FULL_SINE_HZ, at, at + 0.3, 1));
    durationS = at + 1.3;
  }

  private double addPairs(double startS, int count, double jitterUs, RandomStream random) {
    double at = startS;
    for (int i = 0; i < count; i++) {
      pairs.add(new Pair(at, CONSTANT_INTERVAL_US + jitterUs * random.gaussianRatio()));
      at += 0.08 + 0.04 * random.uniformProbability();
    }
    return at;
  }

  /** The pairs in order of time. */
  public List<Pair> pairs() {
    return List.copyOf(pairs);
  }

  /** The sines in order of time; the last is as large as the pulses. */
  public List<Sine> sines() {
    return List.copyOf(sines);
  }

  /** Length in s. */
  public double durationS() {
    return durationS;
  }

  /**
   * The signal at a rate; largest value 1, no noise.
   *
   * @param samplingRateHz rate, 5,000 to 1,000,000 Hz
   */
  public double[] samplesRatio(double samplingRateHz) {
    if (!(samplingRateHz >= 5000 && samplingRateHz <= 1e6)) {
      throw new IllegalArgumentException(
          "rate must be 5000 to 1000000 Hz, found " + samplingRateHz);
    }
    double[] samples = new double[(int) Math.ceil(durationS * samplingRateHz)];
    for (Pair pair : pairs) {
      addPulse(samples, pair.timeS(), samplingRateHz);
      addPulse(samples, pair.timeS() + pair.intervalUs() * 1e-6, samplingRateHz);
    }
    for (Sine sine : sines) {
      if (sine.frequencyHz() >= 0.49 * samplingRateHz) {
        continue;
      }
      int end = (int) (sine.endS() * samplingRateHz);
      for (int i = (int) Math.ceil(sine.startS() * samplingRateHz); i <= end; i++) {
        double phase = 2 * Math.PI * sine.frequencyHz() * (i / samplingRateHz - sine.startS());
        samples[i] += sine.amplitudeRatio() * Math.sin(phase);
      }
    }
    return samples;
  }

  private static void addPulse(double[] samples, double timeS, double rateHz) {
    int half = (int) Math.ceil(6 * WIDTH_S * rateHz);
    int middle = (int) Math.round(timeS * rateHz);
    for (int i = middle - half; i <= middle + half; i++) {
      double u = (i / rateHz - timeS) / WIDTH_S;
      samples[i] -= u * Math.exp((1 - u * u) / 2);
    }
  }
}
