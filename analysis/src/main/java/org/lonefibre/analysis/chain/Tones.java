package org.lonefibre.analysis.chain;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * The tones of the test signal in an export.
 *
 * @param frequenciesHz tones below 0.45 of the rate
 * @param gainsDb gain against the largest
 * @param full amplitude of the tone as large as the pulses
 * @param fullRatio its gain against that of a quarter of the size
 * @param middle amplitude of the tones of 300 to 3000 Hz, mean
 * @param beside what stands beside them, root mean square
 */
record Tones(
    List<Double> frequenciesHz,
    List<Double> gainsDb,
    double full,
    double fullRatio,
    double middle,
    double beside) {

  private static final double NOTHING_RATIO = 1e-6;

  static Tones of(double[] samples, double rateHz, ClockFit clock, TestSignal sent) {
    List<TestSignal.Sine> sines = new ArrayList<>(sent.sines());
    TestSignal.Sine last = sines.remove(sines.size() - 1);
    sines.removeIf(sine -> sine.frequencyHz() > 0.45 * rateHz);
    double[] frequencies = new double[sines.size()];
    double[] gains = new double[sines.size()];
    double largest = 0;
    double middle = 0;
    double beside = 0;
    int count = 0;
    for (int i = 0; i < frequencies.length; i++) {
      TestSignal.Sine sine = sines.get(i);
      SineFit fit = fit(samples, clock, sine, sent);
      frequencies[i] = sine.frequencyHz();
      gains[i] = fit.amplitude() / sine.amplitudeRatio();
      largest = Math.max(largest, gains[i]);
      if (sine.frequencyHz() > 300 && sine.frequencyHz() < 3000) {
        middle += fit.amplitude();
        beside += fit.residual() * fit.residual();
        count++;
      }
    }
    SineFit full = fit(samples, clock, last, sent);
    double expected = at(frequencies, gains, last.frequencyHz());
    double[] decibels = new double[gains.length];
    for (int i = 0; i < gains.length; i++) {
      decibels[i] = 20 * Math.log10(Math.max(NOTHING_RATIO, gains[i] / largest));
    }
    return new Tones(
        Arrays.stream(frequencies).boxed().toList(),
        Arrays.stream(decibels).boxed().toList(),
        full.amplitude() == 0 ? expected : full.amplitude(),
        full.amplitude() == 0 ? 1 : full.amplitude() / expected,
        middle / count,
        Math.sqrt(beside / count));
  }

  /** The last part of a tone, when filters have settled; nothing if the export ends before. */
  private static SineFit fit(
      double[] samples, ClockFit clock, TestSignal.Sine sine, TestSignal sent) {
    double length = sine.endS() - sine.startS();
    int from = (int) clock.position(sine.startS() + 0.4 * length, sent.pairs());
    int to = (int) clock.position(sine.endS() - 0.02 * length, sent.pairs());
    return from < 0 || to > samples.length
        ? new SineFit(0, 0)
        : SineFit.of(samples, from, to, 2 * Math.PI * sine.frequencyHz() / clock.samplesPerS());
  }

  private static double at(double[] frequencies, double[] gains, double frequencyHz) {
    int i = 1;
    while (i < frequencies.length - 1 && frequencies[i] < frequencyHz) {
      i++;
    }
    double part =
        Math.log(frequencyHz / frequencies[i - 1]) / Math.log(frequencies[i] / frequencies[i - 1]);
    return gains[i - 1] + part * (gains[i] - gains[i - 1]);
  }
}
