package org.lonefibre.analysis.chain;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lonefibre.signal.interpolation.FractionalDelay;

/** Finds the pairs of the test signal in an export, and times their pulses between samples. */
final class PulseTimes {

  /** First and second pulse of a pair, in samples; null where not found. */
  record Found(double first, double second) {}

  private static final double SEARCH_S = 0.02;
  private static final double HALF_WINDOW_S = 0.0008;
  private static final int CANDIDATES = 30;

  private final double[] signal;
  private final double rateHz;
  private final int half;
  private final FractionalDelay reading = new FractionalDelay();

  PulseTimes(double[] signal, double rateHz) {
    this.signal = signal;
    this.rateHz = rateHz;
    this.half = (int) Math.ceil(HALF_WINDOW_S * rateHz);
  }

  /** For every pair of the signal its pulses, or null. */
  List<@Nullable Found> of(List<TestSignal.Pair> pairs) {
    List<Integer> peaks = peaks();
    List<@Nullable Found> best = new ArrayList<>();
    int most = 0;
    for (int start = 0; start < Math.min(CANDIDATES, peaks.size()); start++) {
      List<@Nullable Found> walked = walk(pairs, peaks, start);
      int matched = (int) walked.stream().filter(f -> f != null).count();
      if (matched > most) {
        most = matched;
        best = walked;
      }
    }
    return refined(best);
  }

  private List<Integer> peaks() {
    double largest = 0;
    for (double value : signal) {
      largest = Math.max(largest, Math.abs(value));
    }
    List<Integer> peaks = new ArrayList<>();
    int apart = (int) (0.001 * rateHz);
    for (int i = 0; i < signal.length; i++) {
      double size = Math.abs(signal[i]);
      if (size < largest / 2 || largest == 0) {
        continue;
      }
      int last = peaks.size() - 1;
      if (last < 0 || i - peaks.get(last) > apart) {
        peaks.add(i);
      }
    }
    return peaks;
  }

  private List<@Nullable Found> walk(List<TestSignal.Pair> pairs, List<Integer> peaks, int start) {
    List<@Nullable Found> found = new ArrayList<>();
    double position = peaks.get(start);
    double timeS = pairs.get(0).timeS();
    int from = start;
    for (TestSignal.Pair pair : pairs) {
      double expected = position + (pair.timeS() - timeS) * rateHz;
      while (from < peaks.size() && peaks.get(from) < expected - SEARCH_S * rateHz) {
        from++;
      }
      Found match = match(pair, peaks, from, expected);
      found.add(match);
      if (match != null) {
        position = match.first();
        timeS = pair.timeS();
      }
    }
    return found;
  }

  private @Nullable Found match(
      TestSignal.Pair pair, List<Integer> peaks, int from, double expected) {
    for (int i = from; i + 1 < peaks.size(); i++) {
      if (peaks.get(i) > expected + SEARCH_S * rateHz) {
        return null;
      }
      double interval = (peaks.get(i + 1) - peaks.get(i)) * 1e6 / rateHz;
      if (Math.abs(interval - pair.intervalUs()) < 400) {
        return new Found(peaks.get(i), peaks.get(i + 1));
      }
    }
    return null;
  }

  /** Shifts every pulse onto the mean of all: twice, so that the mean is sharp. */
  private List<@Nullable Found> refined(List<@Nullable Found> rough) {
    List<@Nullable Found> times = rough;
    for (int round = 0; round < 3; round++) {
      double[] mean = mean(times);
      List<@Nullable Found> next = new ArrayList<>();
      for (Found pair : times) {
        next.add(
            pair == null
                ? null
                : new Found(shifted(pair.first(), mean), shifted(pair.second(), mean)));
      }
      times = next;
    }
    return times;
  }

  private double[] mean(List<@Nullable Found> times) {
    double[] mean = new double[2 * half + 1];
    double[] window = new double[mean.length];
    int count = 0;
    for (Found pair : times) {
      if (pair != null) {
        reading.read(signal, pair.first() - half, window, window.length);
        for (int i = 0; i < mean.length; i++) {
          mean[i] += window[i];
        }
        count++;
      }
    }
    for (int i = 0; i < mean.length; i++) {
      mean[i] /= Math.max(1, count);
    }
    return mean;
  }

  private double shifted(double at, double[] mean) {
    double[] window = new double[mean.length];
    double position = at;
    for (int step = 0; step < 6; step++) {
      reading.read(signal, position - half, window, window.length);
      double slopes = 0;
      double rest = 0;
      for (int i = 1; i < mean.length - 1; i++) {
        double slope = (mean[i + 1] - mean[i - 1]) / 2;
        slopes += slope * slope;
        rest += slope * (window[i] - mean[i]);
      }
      double move = slopes == 0 ? 0 : Math.max(-1, Math.min(1, rest / slopes));
      position -= move;
    }
    return position;
  }
}
