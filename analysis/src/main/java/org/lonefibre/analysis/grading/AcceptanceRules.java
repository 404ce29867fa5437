package org.lonefibre.analysis.grading;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.lonefibre.signal.recording.Channel.Calibration;
import org.lonefibre.signal.recording.Evidence;
import org.lonefibre.signal.recording.Evidence.Quantity;
import org.lonefibre.signal.recording.Finding;
import org.lonefibre.signal.recording.FindingCode;
import org.lonefibre.signal.recording.TimeBase;

/**
 * The rules of thumb of the trade, judged on the causal twin: amplitude, rise time, no notch or
 * shoulder on the steep phase.
 */
final class AcceptanceRules {

  private static final double NOTCH = 0.55;
  private static final double FOOT = 0.1;
  private static final double NOTCH_NOISE = 4;

  private final GradingSettings settings;

  /** What the rules say of one potential. */
  record Outcome(Grade grade, double peakToPeakUv, double riseTimeUs, List<Finding> findings) {}

  AcceptanceRules(GradingSettings settings) {
    this.settings = settings;
  }

  /**
   * @param shape median sweep of the causal twin
   * @param noiseUv standard deviation of one point of that median
   */
  Outcome judge(double[] shape, int origin, double noiseUv, TimeBase timeBase, Calibration unit) {
    int steep = steepest(shape, origin, (int) Math.ceil(timeBase.lengthSamples(300)));
    int before = turn(shape, steep, -1);
    int after = turn(shape, steep, 1);
    double rise = timeBase.durationUs(after - before);
    double size =
        java.util.Arrays.stream(shape).max().orElse(0)
            - java.util.Arrays.stream(shape).min().orElse(0);
    List<Finding> findings = new ArrayList<>();
    Grade grade = Grade.SINGLE_FIBRE;
    if (unit == Calibration.MICROVOLT && size < settings.smallestAmplitudeUv()) {
      grade = Grade.DOUBTFUL;
      findings.add(
          Finding.caution(
              FindingCode.SMALL_AMPLITUDE,
              String.format(
                  Locale.ROOT,
                  "The amplitude is %.0f uV, under the %.0f uV the trade accepts with this needle.",
                  size,
                  settings.smallestAmplitudeUv()),
              Evidence.of(new Quantity("amplitude", size, "uV"))));
    }
    if (rise > settings.longestRiseUs()) {
      grade = Grade.DOUBTFUL;
      findings.add(
          Finding.caution(
              FindingCode.RISE_TIME,
              String.format(
                  Locale.ROOT,
                  "The rise time is %.0f us, over the %.0f us the trade accepts.",
                  rise,
                  settings.longestRiseUs()),
              Evidence.of(new Quantity("rise time", rise, "us"))));
    }
    if (hasNotch(shape, before, after, noiseUv)) {
      grade = Grade.COMPOSITE;
      findings.add(
          Finding.caution(
              FindingCode.NOTCH,
              "The steep phase has a notch or shoulder.",
              Evidence.of(new Quantity("rise time", rise, "us"))));
    }
    return new Outcome(grade, size, rise, findings);
  }

  private static int steepest(double[] shape, int origin, int reach) {
    int best = Math.max(1, origin);
    for (int k = Math.max(1, origin - reach); k < Math.min(shape.length - 1, origin + reach); k++) {
      if (Math.abs(shape[k + 1] - shape[k - 1]) > Math.abs(shape[best + 1] - shape[best - 1])) {
        best = k;
      }
    }
    return best;
  }

  /** Where the steep phase ends: the first sample after which the shape turns back. */
  private static int turn(double[] shape, int steep, int step) {
    double way = Math.signum(shape[steep + 1] - shape[steep - 1]);
    int k = steep;
    while (k + step > 0
        && k + step < shape.length - 1
        && way * (shape[k + step] - shape[k]) * step > 0) {
      k += step;
    }
    return k;
  }

  /**
   * Whether the slope falls to a part of its neighbours within the phase and rises again; its flat
   * foot and head, where a neighbour's end may lie, do not count.
   */
  private static boolean hasNotch(double[] shape, int before, int after, double noiseUv) {
    int n = after - before;
    if (n < 4) {
      return false;
    }
    double[] slope = new double[n];
    for (int k = 0; k < n; k++) {
      slope[k] = Math.abs(shape[before + k + 1] - shape[before + k]);
    }
    double steepest = java.util.Arrays.stream(slope).max().orElse(0);
    int first = 0;
    int last = n - 1;
    while (slope[first] < FOOT * steepest) {
      first++;
    }
    while (slope[last] < FOOT * steepest) {
      last--;
    }
    for (int k = first + 1; k < last; k++) {
      double left = 0;
      double right = 0;
      for (int j = first; j < k; j++) {
        left = Math.max(left, slope[j]);
      }
      for (int j = k + 1; j <= last; j++) {
        right = Math.max(right, slope[j]);
      }
      double lower = Math.min(left, right);
      if (slope[k] < NOTCH * lower && lower - slope[k] > NOTCH_NOISE * noiseUv) {
        return true;
      }
    }
    return false;
  }
}
