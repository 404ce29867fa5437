package org.lonefibre.analysis.conditioning;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.OptionalDouble;
import org.jtransforms.fft.DoubleFFT_1D;
import org.lonefibre.signal.recording.Segment;
import org.lonefibre.signal.robust.RobustStatistics;

/**
 * Looks for what sound recorders leave in a signal: a wall in the spectrum, as lossy coding and
 * resampling leave, and a gain that follows the loudness.
 *
 * <ol>
 *   <li>Blocks of {@value #BLOCK} samples, at most {@value #MOST_BLOCKS}, spread evenly.
 *   <li>Wall: the mean spectrum falls by 30 dB or more within 500 Hz, having been even (10 dB)
 *       before, stays down to the top, and lies from 2.5 kHz to four fifths of half the sampling
 *       rate. No analogue filter of the trade is so steep; anti-aliasing filters stand higher.
 *   <li>Gain: the quiet part of the blocks (20th percentile of the steps from sample to sample)
 *       varies by half or more and is small where the loud part is large (rank correlation -0.5 or
 *       below; Spearman 1904). Noise of an amplifier does not depend on the signal.
 * </ol>
 *
 * <p>All limits are engineering choices. Thread rule: one thread.
 */
final class SoundTraces {

  private static final int BLOCK = 2048;
  private static final int MOST_BLOCKS = 256;
  private static final int LEAST_BLOCKS = 40;
  private static final double LEAST_RATE_HZ = 8_000;
  private static final double LOWEST_WALL_HZ = 2_500;
  private static final double HIGHEST_WALL_RATIO = 0.8;
  private static final double WALL_POWER = 1e3;
  private static final double EVEN_POWER = 10;
  private static final double QUIET_VARIATION = 1.5;
  private static final double GAIN_CORRELATION = -0.5;

  private static final double[] TAPER = taper();

  private final double rateHz;
  private final double[] power = new double[BLOCK / 2];
  private final List<Double> quiet = new ArrayList<>();
  private final List<Double> loud = new ArrayList<>();

  SoundTraces(RawSource source, List<Segment> segments, double rateHz) throws IOException {
    this.rateHz = rateHz;
    long all = segments.stream().mapToLong(s -> s.sampleCount() / BLOCK).sum();
    long spacing = Math.max(1, (all + MOST_BLOCKS - 1) / MOST_BLOCKS);
    DoubleFFT_1D transform = new DoubleFFT_1D(BLOCK);
    double[] block = new double[BLOCK];
    long number = 0;
    for (Segment segment : segments) {
      for (long k = 0; k < segment.sampleCount() / BLOCK; k++) {
        if (number++ % spacing == 0) {
          source.read(segment.firstSample() + k * BLOCK, block, 0, BLOCK);
          add(block, transform);
        }
      }
    }
  }

  private static double[] taper() {
    double[] taper = new double[BLOCK];
    for (int k = 0; k < BLOCK; k++) {
      taper[k] = 0.5 - 0.5 * Math.cos(2 * Math.PI * k / BLOCK);
    }
    return taper;
  }

  private void add(double[] block, DoubleFFT_1D transform) {
    double[] steps = new double[BLOCK - 1];
    double largest = 0;
    for (int k = 0; k < steps.length; k++) {
      steps[k] = Math.abs(block[k + 1] - block[k]);
      largest = Math.max(largest, steps[k]);
    }
    quiet.add(RobustStatistics.rankInPlace(steps, steps.length, steps.length / 5));
    loud.add(largest);
    for (int k = 0; k < BLOCK; k++) {
      block[k] *= TAPER[k];
    }
    transform.realForward(block);
    for (int k = 1; k < power.length; k++) {
      power[k] += block[2 * k] * block[2 * k] + block[2 * k + 1] * block[2 * k + 1];
    }
  }

  /** Frequency of a wall in the spectrum, in Hz; empty if there is none. */
  OptionalDouble findWallHz() {
    if (rateHz < LEAST_RATE_HZ || quiet.size() < LEAST_BLOCKS) {
      return OptionalDouble.empty();
    }
    double best = WALL_POWER;
    double wallHz = 0;
    double[] highest = highest(0.98 * rateHz / 2);
    for (double hz = LOWEST_WALL_HZ; hz < HIGHEST_WALL_RATIO * rateHz / 2; hz += rateHz / BLOCK) {
      double before = mean(hz - 1000, hz - 200);
      double earlier = mean(hz - 2400, hz - 1000);
      double above = highest[bin(hz + 300)];
      if (before > best * above && earlier < EVEN_POWER * before && above >= 0) {
        best = before / Math.max(above, Double.MIN_NORMAL);
        wallHz = hz;
      }
    }
    return wallHz > 0 ? OptionalDouble.of(wallHz) : OptionalDouble.empty();
  }

  private double mean(double fromHz, double toHz) {
    double sum = 0;
    int from = bin(fromHz);
    int to = Math.max(from + 1, bin(toHz));
    for (int k = from; k < to; k++) {
      sum += power[k];
    }
    return sum / (to - from);
  }

  /** For each bin the highest mean of five neighbouring bins from there to a frequency. */
  private double[] highest(double toHz) {
    double[] highest = new double[power.length];
    for (int k = bin(toHz) - 5; k >= 0; k--) {
      double sum = 0;
      for (int j = k; j < k + 5; j++) {
        sum += power[j];
      }
      highest[k] = Math.max(highest[k + 1], sum / 5);
    }
    return highest;
  }

  private int bin(double hz) {
    return (int) Math.max(1, Math.min(power.length - 1.0, Math.rint(hz * BLOCK / rateHz)));
  }

  /** Whether the gain follows the loudness. */
  boolean isGainMoving() {
    if (quiet.size() < LEAST_BLOCKS) {
      return false;
    }
    double[] sorted = quiet.stream().mapToDouble(Double::doubleValue).sorted().toArray();
    double low = sorted[sorted.length / 10];
    double high = sorted[sorted.length * 9 / 10];
    return low > 0
        && high > QUIET_VARIATION * low
        && rankCorrelation(quiet, loud) <= GAIN_CORRELATION;
  }

  private static double rankCorrelation(List<Double> a, List<Double> b) {
    double[] first = ranks(a);
    double[] second = ranks(b);
    double centre = (a.size() - 1) / 2.0;
    double product = 0;
    double squares = 0;
    double otherSquares = 0;
    for (int k = 0; k < first.length; k++) {
      product += (first[k] - centre) * (second[k] - centre);
      squares += (first[k] - centre) * (first[k] - centre);
      otherSquares += (second[k] - centre) * (second[k] - centre);
    }
    double scale = Math.sqrt(squares * otherSquares);
    return scale > 0 ? product / scale : 0;
  }

  /** Ranks from 0, ties at their mean. */
  private static double[] ranks(List<Double> values) {
    double[] sorted = values.stream().mapToDouble(Double::doubleValue).sorted().toArray();
    double[] ranks = new double[sorted.length];
    for (int k = 0; k < ranks.length; k++) {
      int first = Arrays.binarySearch(sorted, values.get(k));
      int last = first;
      while (first > 0 && sorted[first - 1] == sorted[first]) {
        first--;
      }
      while (last < sorted.length - 1 && sorted[last + 1] == sorted[last]) {
        last++;
      }
      ranks[k] = (first + last) / 2.0;
    }
    return ranks;
  }
}
