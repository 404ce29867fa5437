package org.lonefibre.analysis.discharge;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.lonefibre.analysis.conditioning.ConditionedSignal;
import org.lonefibre.signal.recording.Segment;

/**
 * Finds steep phases: the difference of the means over a short time after and before each sample,
 * where it stands out of the noise. A steep phase is one to a potential; the flanks of the same
 * potential, of opposite direction and less steep, are dropped.
 */
final class SpikeDetector {

  private static final int BLOCK = 1 << 16;

  private final DischargeSettings settings;

  SpikeDetector(DischargeSettings settings) {
    this.settings = settings;
  }

  /** All steep phases of the site. */
  SpikeTrain detect(ConditionedSignal signal) {
    int half = Math.max(2, (int) Math.round(signal.timeBase().lengthSamples(settings.steepUs())));
    double threshold = settings.threshold() * noiseOfSlope(signal, half);
    Candidates found = new Candidates();
    List<Segment> segments = signal.segments();
    for (int s = 0; s < segments.size(); s++) {
      scan(signal, segments.get(s), s, half, threshold, found);
    }
    return found.withoutFlanks(
        signal.timeBase().lengthSamples(settings.flankUs()),
        signal.timeBase().lengthSamples(settings.sameSlopeUs()));
  }

  /** Standard deviation of the slope measure that noise alone gives. */
  private static double noiseOfSlope(ConditionedSignal signal, int half) {
    double[] correlation = signal.noiseAutocorrelation(2 * half + 2);
    double variance = 0;
    for (int i = -half; i <= half; i++) {
      for (int j = -half; j <= half; j++) {
        variance += Integer.signum(i) * Integer.signum(j) * correlation[Math.abs(i - j)];
      }
    }
    return signal.noiseUv() * Math.sqrt(Math.max(variance, 1e-12)) / half;
  }

  private static void scan(
      ConditionedSignal signal,
      Segment segment,
      int segmentIndex,
      int half,
      double threshold,
      Candidates found) {
    double[] samples = new double[BLOCK + 2 * half + 3];
    double[] slope = new double[BLOCK + 2];
    long from = segment.firstSample() + half + 1;
    long end = segment.endSample() - half - 1;
    for (long start = from; start < end; start += BLOCK) {
      int length = (int) Math.min(BLOCK, end - start);
      signal.read(start - half - 1, samples, 0, length + 2 * half + 2);
      slopes(samples, half, slope, length + 2);
      int k = firstBeyond(slope, 1, length, threshold);
      while (k <= length) {
        judge(slope, k, start, segmentIndex, found);
        k = firstBeyond(slope, k + 1, length, threshold);
      }
    }
  }

  /** The first of some slopes beyond the threshold; the one behind the last if none is. */
  private static int firstBeyond(double[] slope, int from, int last, double threshold) {
    int k = from;
    while (k <= last && Math.abs(slope[k]) <= threshold) {
      k++;
    }
    return k;
  }

  /** Takes a slope beyond the threshold if it is steeper than those beside it. */
  private static void judge(double[] slope, int k, long start, int segmentIndex, Candidates found) {
    double value = Math.abs(slope[k]);
    double left = Math.abs(slope[k - 1]);
    double right = Math.abs(slope[k + 1]);
    if (value >= left && value > right) {
      double curvature = left - 2 * value + right;
      double shift = curvature < 0 ? 0.5 * (left - right) / curvature : 0;
      found.add(start + k - 1 + Math.max(-0.5, Math.min(0.5, shift)), slope[k], segmentIndex);
    }
  }

  /**
   * {@code slope[k]}: mean of the samples after minus mean of the samples before sample k + half.
   */
  private static void slopes(double[] samples, int half, double[] slope, int length) {
    int middle = length / 2;
    double before = 0;
    double after = 0;
    double laterBefore = 0;
    double laterAfter = 0;
    for (int j = 0; j < half; j++) {
      before += samples[j];
      after += samples[half + 1 + j];
      laterBefore += samples[middle + j];
      laterAfter += samples[middle + half + 1 + j];
    }
    double scale = 1.0 / half;
    // Two halves side by side: no sum waits for the other half's.
    for (int k = 0; k < middle; k++) {
      int m = middle + k;
      slope[k] = (after - before) * scale;
      slope[m] = (laterAfter - laterBefore) * scale;
      before += samples[k + half] - samples[k];
      after += samples[k + 2 * half + 1] - samples[k + half + 1];
      laterBefore += samples[m + half] - samples[m];
      laterAfter += samples[m + 2 * half + 1] - samples[m + half + 1];
    }
    if (2 * middle < length) {
      slope[length - 1] = (laterAfter - laterBefore) * scale;
    }
  }

  /** Candidates as they are found, in rising order of position. */
  private static final class Candidates {

    private static final double OTHER_WAY = 0.8;

    private double[] position = new double[1024];
    private double[] height = new double[1024];
    private int[] segment = new int[1024];
    private int count;

    void add(double at, double slope, int inSegment) {
      if (count == position.length) {
        position = Arrays.copyOf(position, 2 * count);
        height = Arrays.copyOf(height, 2 * count);
        segment = Arrays.copyOf(segment, 2 * count);
      }
      position[count] = at;
      height[count] = slope;
      segment[count++] = inSegment;
    }

    /** Drops flanks of larger neighbours; the commoner direction of large slopes is preferred. */
    SpikeTrain withoutFlanks(double flankSamples, double sameSlopeSamples) {
      double main = mainDirection();
      List<Integer> kept = new ArrayList<>();
      for (int i = 0; i < count; i++) {
        if (!isFlank(i, main, flankSamples, sameSlopeSamples)) {
          kept.add(i);
        }
      }
      return new SpikeTrain(
          kept.stream().mapToDouble(i -> position[i]).toArray(),
          kept.stream().mapToDouble(i -> height[i]).toArray(),
          kept.stream().mapToInt(i -> segment[i]).toArray());
    }

    private double mainDirection() {
      double sum = 0;
      for (int i = 0; i < count; i++) {
        sum += height[i] * Math.abs(height[i]) * Math.abs(height[i]);
      }
      return Math.signum(sum);
    }

    private boolean isFlank(int i, double main, double flankSamples, double sameSlopeSamples) {
      double own = weight(i, main);
      for (int step = -1; step <= 1; step += 2) {
        for (int j = i + step; j >= 0 && j < count; j += step) {
          double distance = Math.abs(position[j] - position[i]);
          if (distance > flankSamples || segment[j] != segment[i]) {
            break;
          }
          boolean sameWay = height[i] * height[j] > 0;
          if (weight(j, main) > own && (!sameWay || distance < sameSlopeSamples)) {
            return true;
          }
        }
      }
      return false;
    }

    private double weight(int i, double main) {
      return Math.abs(height[i]) * (height[i] * main >= 0 ? 1 : OTHER_WAY);
    }
  }
}
