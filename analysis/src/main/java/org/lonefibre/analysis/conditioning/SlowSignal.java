package org.lonefibre.analysis.conditioning;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.jtransforms.fft.DoubleFFT_1D;
import org.lonefibre.signal.robust.RobustStatistics;

/**
 * What is slow in the raw signal: baseline and mains.
 *
 * <ol>
 *   <li>Means of a few neighbouring samples, at most 8,000 a second.
 *   <li>Baseline: the median of each quarter of a second, from every eighth mean.
 *   <li>Mains: power spectra (Hann window, about a second) of at most 16 stretches spread over the
 *       site, averaged.
 * </ol>
 *
 * <p>The numbers are engineering choices.
 */
final class SlowSignal {

  private static final double FASTEST_HZ = 8000;
  private static final double BASELINE_S = 0.25;
  private static final double SPECTRUM_S = 0.65;
  private static final int MOST_SPECTRA = 16;

  private final int group;
  private final double rateHz;
  private final int baselineLength;
  private final int spectrumLength;
  private final double[] recent;
  private int recentCount;
  private final double[] window;
  private int windowCount;
  private final double[] scratch;
  private final double[] taper;
  private final List<Double> baseline = new ArrayList<>();
  private final List<double[]> spectra = new ArrayList<>();
  private long windowsSeen;
  private int windowSpacing = 1;
  private final DoubleFFT_1D transform;
  private double sum;
  private long count;

  SlowSignal(double samplingRateHz) {
    int divisor = 1;
    while (samplingRateHz / divisor > FASTEST_HZ && divisor < SiteScan.GROUP) {
      divisor *= 2;
    }
    group = divisor;
    rateHz = samplingRateHz / divisor;
    baselineLength = (int) Math.max(1, Math.min(1 << 16, BASELINE_S * rateHz / 8));
    int length = 16;
    while (length < SPECTRUM_S * rateHz && length < 4096) {
      length *= 2;
    }
    spectrumLength = length;
    recent = new double[baselineLength];
    window = new double[spectrumLength];
    scratch = new double[Math.max(baselineLength, spectrumLength)];
    transform = new DoubleFFT_1D(spectrumLength);
    taper = new double[spectrumLength];
    for (int i = 0; i < spectrumLength; i++) {
      taper[i] = 0.5 - 0.5 * Math.cos(2 * Math.PI * i / spectrumLength);
    }
  }

  /** Time jumps: what was begun is dropped. */
  void startSegment() {
    recentCount = 0;
    windowCount = 0;
  }

  /** Takes up to 64 samples; a shorter group only at the end of a piece, whose rest is dropped. */
  void add(double[] samples, int from, int to) {
    for (int i = from; i + group <= to; i += group) {
      take(sum(samples, i, i + group) / group);
    }
  }

  /** Four sums side by side: none waits for another. */
  private static double sum(double[] samples, int from, int to) {
    double a = 0;
    double b = 0;
    double c = 0;
    double d = 0;
    int k = from;
    for (; k + 3 < to; k += 4) {
      a += samples[k];
      b += samples[k + 1];
      c += samples[k + 2];
      d += samples[k + 3];
    }
    for (; k < to; k++) {
      a += samples[k];
    }
    return (a + b) + (c + d);
  }

  private void take(double value) {
    sum += value;
    count++;
    if ((count & 7) == 0) {
      recent[recentCount++] = value;
    }
    if (recentCount == baselineLength) {
      System.arraycopy(recent, 0, scratch, 0, baselineLength);
      baseline.add(RobustStatistics.medianInPlace(scratch, baselineLength));
      recentCount = 0;
    }
    window[windowCount++] = value;
    if (windowCount == spectrumLength) {
      windowCount = 0;
      if (windowsSeen++ % windowSpacing == 0) {
        if (spectra.size() == MOST_SPECTRA) {
          for (int i = MOST_SPECTRA - 1; i > 0; i -= 2) {
            spectra.remove(i);
          }
          windowSpacing *= 2;
        }
        if ((windowsSeen - 1) % windowSpacing == 0) {
          spectra.add(power());
        }
      }
    }
  }

  private double[] power() {
    double mean = Arrays.stream(window).average().orElse(0);
    double[] x = new double[spectrumLength];
    for (int i = 0; i < spectrumLength; i++) {
      x[i] = (window[i] - mean) * taper[i];
    }
    transform.realForward(x);
    double[] power = new double[spectrumLength / 2];
    for (int k = 1; k < power.length; k++) {
      power[k] = x[2 * k] * x[2 * k] + x[2 * k + 1] * x[2 * k + 1];
    }
    return power;
  }

  /** Mean of the site; 0 before the first samples. */
  double mean() {
    return count == 0 ? 0 : sum / count;
  }

  /** 5th to 95th percentile of the baseline; 0 if there are fewer than eight values. */
  double baselineRange() {
    if (baseline.size() < 8) {
      return 0;
    }
    double[] values = baseline.stream().mapToDouble(Double::doubleValue).toArray();
    return RobustStatistics.quantile(values, 0.95) - RobustStatistics.quantile(values, 0.05);
  }

  /** The averaged spectrum, for the mains; empty if the site is too short for one. */
  MainsLine mains() {
    double[] mean = new double[spectrumLength / 2];
    for (double[] power : spectra) {
      for (int k = 0; k < mean.length; k++) {
        mean[k] += power[k] / spectra.size();
      }
    }
    return new MainsLine(mean, spectra.size(), rateHz, spectrumLength, group);
  }
}
