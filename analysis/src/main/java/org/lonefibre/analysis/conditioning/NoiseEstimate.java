package org.lonefibre.analysis.conditioning;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.jtransforms.fft.DoubleFFT_1D;
import org.lonefibre.signal.recording.Segment;
import org.lonefibre.signal.robust.RobustStatistics;

/**
 * The spread of a site's filtered signal outside potentials.
 *
 * <ol>
 *   <li>At most 64 windows of 2,048 samples, evenly spread (all samples of a short site).
 *   <li>A first guess that firing hardly moves: the smaller of the spread of all samples (from the
 *       median of magnitudes) and the 30th percentile of the root mean square of 2 ms stretches.
 *   <li>Samples within 1.5 ms of one beyond 4.5 times the guess are left out, the spread of the
 *       rest is the next guess, until it stands still.
 * </ol>
 *
 * <p>The numbers are engineering choices; a test holds the result to 3 % with three units of four
 * potentials.
 */
final class NoiseEstimate {

  private static final int WINDOWS = 64;
  private static final int WINDOW = 2048;
  private static final double BEYOND = 4.5;
  private static final double AROUND_US = 1500;
  private static final double GUESS_STRETCH_US = 2000;
  private static final double GUESS_PROBABILITY = 0.3;
  private static final int ROUNDS = 20;
  static final int MOST_LAGS = 1000;
  private static final double STILL = 0.005;

  /** The guesses look at every 12th sample, the result at every second. */
  private static final int COARSE = 12;

  private static final int FINE = 2;

  private final List<Window> windows = new ArrayList<>();

  /** Once it was asked for. */
  private double[] correlation = new double[0];

  private final int around;
  private final int guessStretch;
  private final double zeroPhaseSd;
  private final double causalSd;
  private final double largestPeakToPeak;
  private final double usualPeakToPeak;

  /** Samples of one window; the outer ones only show what lies near. */
  private static final class Window {
    final long first;
    final double[] zeroPhase;
    final double[] causal;
    final boolean[] usable;

    Window(long first, int length) {
      this.first = first;
      zeroPhase = new double[length];
      causal = new double[length];
      usable = new boolean[length];
    }

    /** Takes stretches, each with so many samples around it, out of what is kept. */
    void leaveOut(List<Stretch> stretches, int around, boolean[] kept) {
      for (Stretch stretch : stretches) {
        int from = (int) Math.max(0, stretch.first() - around - first);
        int to = (int) Math.min(kept.length, stretch.end() + around - first);
        for (int i = from; i < to; i++) {
          kept[i] = false;
        }
      }
    }
  }

  /**
   * @param samplingRateHz rate of the signal
   * @param unusable stretches left out, with a margin
   */
  NoiseEstimate(
      FilteredBlocks blocks, List<Segment> segments, double samplingRateHz, List<Stretch> unusable)
      throws IOException {
    around = (int) Math.ceil(AROUND_US * 1e-6 * samplingRateHz);
    guessStretch = (int) Math.max(8, GUESS_STRETCH_US * 1e-6 * samplingRateHz);
    gather(blocks, segments, unusable);
    zeroPhaseSd = spread(true);
    causalSd = spread(false);
    double[] sizes = new double[windows.size()];
    for (int w = 0; w < sizes.length; w++) {
      sizes[w] = peakToPeak(windows.get(w));
    }
    largestPeakToPeak = RobustStatistics.quantile(sizes, 1);
    usualPeakToPeak = RobustStatistics.median(sizes);
  }

  private static double peakToPeak(Window window) {
    double low = 0;
    double high = 0;
    for (int i = 0; i < window.usable.length; i++) {
      if (window.usable[i]) {
        low = Math.min(low, window.zeroPhase[i]);
        high = Math.max(high, window.zeroPhase[i]);
      }
    }
    return high - low;
  }

  /** Standard deviation of the noise, both ways filtered; 0 if nothing was usable or constant. */
  double zeroPhaseSd() {
    return zeroPhaseSd;
  }

  /** Standard deviation of the noise, one way filtered. */
  double causalSd() {
    return causalSd;
  }

  /** Largest distance between peaks within a window, both ways filtered. */
  double largestPeakToPeak() {
    return largestPeakToPeak;
  }

  /** Median over the windows of the distance between peaks. */
  double usualPeakToPeak() {
    return usualPeakToPeak;
  }

  /**
   * Correlation of the noise, both ways filtered, at distances 0 to {@code lags} samples, at most
   * {@value #MOST_LAGS}.
   */
  double[] autocorrelation(int lags) {
    synchronized (windows) {
      if (correlation.length == 0) {
        correlation = correlate(MOST_LAGS, List.of());
      }
      return Arrays.copyOf(correlation, lags + 1);
    }
  }

  /**
   * The same with known potentials left out as well: small ones do not stand out of the noise, but
   * all together they colour it.
   *
   * @param potentials where they lie, without a margin
   */
  double[] autocorrelationWithout(List<Stretch> potentials, int lags) {
    return correlate(lags, potentials);
  }

  /** By the power of what has been kept of each window, with zeros elsewhere and behind it. */
  private double[] correlate(int lags, List<Stretch> without) {
    int longest = windows.stream().mapToInt(window -> window.usable.length).max().orElse(1);
    int size = 2 * Integer.highestOneBit(longest + lags);
    DoubleFFT_1D transform = new DoubleFFT_1D(size);
    double[] sums = new double[size];
    double[] x = new double[size];
    double[] edges = new double[lags + 1];
    long all = 0;
    for (Window window : windows) {
      boolean[] kept = kept(window, window.zeroPhase, BEYOND * zeroPhaseSd);
      window.leaveOut(without, around, kept);
      Arrays.fill(x, 0);
      for (int i = 0; i < kept.length; i++) {
        x[i] = kept[i] ? window.zeroPhase[i] : 0;
        all += kept[i] ? 1 : 0;
      }
      addPower(x, transform, sums);
      addEdges(kept, edges);
    }
    transform.realInverse(sums, true);
    double[] pairs = pairs(all, edges);
    double[] found = new double[lags + 1];
    found[0] = 1;
    double variance = all > 0 ? sums[0] / all : 0;
    for (int k = 1; k <= lags; k++) {
      if (variance > 0 && pairs[k] > 0) {
        found[k] = Math.max(-1, Math.min(1, sums[k] / pairs[k] / variance));
      }
    }
    return found;
  }

  /**
   * Adds, for each distance, how many edges of what is kept (a beginning counts 1, an end -1) lie
   * so far from each other, as the sum of their products.
   */
  private static void addEdges(boolean[] kept, double[] products) {
    int[] place = new int[kept.length + 1];
    int[] sign = new int[kept.length + 1];
    int n = 0;
    for (int i = 0; i <= kept.length; i++) {
      boolean before = i > 0 && kept[i - 1];
      boolean now = i < kept.length && kept[i];
      if (before != now) {
        place[n] = i;
        sign[n++] = now ? 1 : -1;
        for (int j = n - 1; j >= 0 && i - place[j] < products.length; j--) {
          products[i - place[j]] += sign[j] * sign[n - 1];
        }
      }
    }
  }

  /**
   * How many pairs of kept samples lie so far apart: their second difference over the distance is
   * what the edges say, so it is summed twice; whole numbers, exact.
   */
  private static double[] pairs(long all, double[] edges) {
    double[] pairs = new double[edges.length];
    pairs[0] = all;
    double slope = -edges[0] / 2;
    for (int k = 1; k < pairs.length; k++) {
      pairs[k] = pairs[k - 1] + slope;
      slope -= edges[k];
    }
    return pairs;
  }

  /** Adds the power of a wave, packed as JTransforms packs a spectrum; the wave is used up. */
  private static void addPower(double[] wave, DoubleFFT_1D transform, double[] power) {
    transform.realForward(wave);
    power[0] += wave[0] * wave[0];
    power[1] += wave[1] * wave[1];
    for (int k = 2; k < wave.length; k += 2) {
      power[k] += wave[k] * wave[k] + wave[k + 1] * wave[k + 1];
    }
  }

  private void gather(FilteredBlocks blocks, List<Segment> segments, List<Stretch> unusable)
      throws IOException {
    long total = 0;
    for (Segment segment : segments) {
      total += segment.sampleCount();
    }
    long spacing = Math.max(WINDOW, total / WINDOWS);
    for (int s = 0; s < segments.size(); s++) {
      Segment segment = segments.get(s);
      long start = segment.firstSample();
      for (long first = start; first < segment.endSample(); first += spacing) {
        long from = Math.max(start, first - around);
        long to = Math.min(segment.endSample(), first + WINDOW + around);
        Window window = new Window(from, (int) (to - from));
        blocks.sample(s, from, window.usable.length, window.zeroPhase, window.causal);
        Arrays.fill(window.usable, true);
        window.leaveOut(unusable, around, window.usable);
        windows.add(window);
      }
    }
  }

  private double spread(boolean zeroPhase) {
    double guess = firstGuess(zeroPhase);
    for (int round = 0; round < ROUNDS && guess > 0; round++) {
      double next = spreadOutside(zeroPhase, BEYOND * guess, COARSE);
      if (next < 0) {
        return plainSpread(zeroPhase);
      }
      boolean still = Math.abs(next - guess) < STILL * guess;
      guess = next;
      if (still) {
        return Math.max(0, spreadOutside(zeroPhase, BEYOND * guess, FINE));
      }
    }
    return guess;
  }

  private double firstGuess(boolean zeroPhase) {
    List<Double> levels = new ArrayList<>();
    for (Window window : windows) {
      double[] x = zeroPhase ? window.zeroPhase : window.causal;
      for (int from = 0; from + guessStretch <= x.length; from += guessStretch) {
        double sum = 0;
        boolean all = true;
        for (int i = from; i < from + guessStretch; i++) {
          sum += x[i] * x[i];
          all &= window.usable[i];
        }
        if (all) {
          levels.add(Math.sqrt(sum / guessStretch));
        }
      }
    }
    double plain = plainSpread(zeroPhase);
    if (levels.isEmpty()) {
      return plain;
    }
    double[] sorted = levels.stream().mapToDouble(Double::doubleValue).toArray();
    double quiet = RobustStatistics.quantileInPlace(sorted, sorted.length, GUESS_PROBABILITY);
    return quiet > 0 ? Math.min(plain > 0 ? plain : quiet, quiet) : plain;
  }

  /** Spread of all usable samples; 0 if there are none. */
  private double plainSpread(boolean zeroPhase) {
    return Math.max(0, spreadOutside(zeroPhase, Double.POSITIVE_INFINITY, 8));
  }

  /** Spread of every {@code step}-th sample away from large ones; -1 if under 5 % are left. */
  private double spreadOutside(boolean zeroPhase, double limit, int step) {
    int length = 0;
    for (Window window : windows) {
      length += window.usable.length / step + 1;
    }
    double[] values = new double[length];
    int count = 0;
    long usable = 0;
    for (Window window : windows) {
      double[] x = zeroPhase ? window.zeroPhase : window.causal;
      boolean[] kept = kept(window, x, limit);
      for (int i = 0; i < x.length; i += step) {
        usable += window.usable[i] ? 1 : 0;
        if (kept[i]) {
          values[count++] = x[i];
        }
      }
    }
    if (count == 0 || count < 0.05 * usable) {
      return -1;
    }
    return RobustStatistics.standardDeviationAroundZeroInPlace(values, count);
  }

  private boolean[] kept(Window window, double[] x, double limit) {
    boolean[] kept = window.usable.clone();
    int done = 0;
    for (int i = 0; i < x.length; i++) {
      if (Math.abs(x[i]) > limit) {
        int end = Math.min(x.length, i + around + 1);
        for (int k = Math.max(done, i - around); k < end; k++) {
          kept[k] = false;
        }
        done = end;
      }
    }
    return kept;
  }
}
