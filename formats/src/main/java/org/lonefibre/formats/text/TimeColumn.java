package org.lonefibre.formats.text;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lonefibre.signal.recording.RecordingFormatException;
import org.lonefibre.signal.recording.Segment;
import org.lonefibre.signal.recording.TimeBase;

/**
 * Rate and continuous stretches from a column of times, allowing for the rounding of its digits.
 */
final class TimeColumn {

  final TimeBase timeBase;
  final List<Segment> segments;

  private TimeColumn(TimeBase timeBase, List<Segment> segments) {
    this.timeBase = timeBase;
    this.segments = segments;
  }

  /**
   * @param timesS times in seconds
   * @param digitS value of one unit of the last digit of each time
   * @param givenHz rate given by the user, used instead of the one found; null if none
   */
  static TimeColumn of(
      String file, double[] timesS, double[] digitS, int firstLine, @Nullable Double givenHz)
      throws RecordingFormatException {
    int n = timesS.length;
    if (n < 3) {
      throw new RecordingFormatException(
          file, "the time column", "at least three times", n + " times", "export a longer stretch");
    }
    double[] steps = new double[n - 1];
    for (int i = 0; i + 1 < n; i++) {
      steps[i] = timesS[i + 1] - timesS[i];
      if (!(steps[i] > 0)) {
        throw new RecordingFormatException(
            file,
            "line " + (firstLine + i + 1) + ", time",
            "a time after the one before",
            "a step of " + steps[i] + " s",
            "export the recording again");
      }
    }
    double rough = stepOf(steps);
    List<int[]> runs = new ArrayList<>();
    int first = 0;
    for (int i = 0; i + 1 < n; i++) {
      if (steps[i] > 1.5 * rough + 2 * Math.max(digitS[i], digitS[i + 1])) {
        runs.add(new int[] {first, i + 1});
        first = i + 1;
      }
    }
    runs.add(new int[] {first, n});
    TimeBase timeBase = givenHz != null ? TimeBase.ofHz(givenHz) : rate(timesS, digitS, runs);
    List<Segment> segments = new ArrayList<>();
    for (int[] run : runs) {
      check(file, timesS, digitS, run, timeBase, firstLine);
      segments.add(new Segment(run[0], run[1] - run[0], timesS[run[0]] - timesS[0]));
    }
    return new TimeColumn(timeBase, segments);
  }

  private static double stepOf(double[] steps) {
    double[] sorted = steps.clone();
    Arrays.sort(sorted);
    double low = sorted[sorted.length / 10];
    double sum = 0;
    int count = 0;
    for (double step : sorted) {
      if (step < 3 * low + 1e-12) {
        sum += step;
        count++;
      }
    }
    return sum / count;
  }

  /** The simplest rate that the longest run allows within the rounding of its ends. */
  private static TimeBase rate(double[] timesS, double[] digitS, List<int[]> runs) {
    int[] longest = runs.get(0);
    for (int[] run : runs) {
      longest = run[1] - run[0] > longest[1] - longest[0] ? run : longest;
    }
    int last = longest[1] - 1;
    double span = timesS[last] - timesS[longest[0]];
    double rate = (last - longest[0]) / span;
    double slack = rate * (digitS[last] + digitS[longest[0]]) / span + 1e-12 * rate;
    for (int digits = -1; digits < 9; digits++) {
      BigDecimal rounded = BigDecimal.valueOf(rate).setScale(digits, RoundingMode.HALF_EVEN);
      if (rounded.signum() > 0 && Math.abs(rounded.doubleValue() - rate) <= slack) {
        return TimeBase.ofHz(rounded.doubleValue());
      }
    }
    return TimeBase.ofHz(rate);
  }

  private static void check(
      String file, double[] timesS, double[] digitS, int[] run, TimeBase timeBase, int firstLine)
      throws RecordingFormatException {
    for (int i = run[0]; i < run[1]; i++) {
      double expected = timesS[run[0]] + timeBase.timeS(i - run[0]);
      double allowed = 1.5 * Math.max(digitS[i], digitS[run[0]]) + 0.2 * timeBase.timeS(1);
      if (Math.abs(timesS[i] - expected) > allowed) {
        throw new RecordingFormatException(
            file,
            "line " + (firstLine + i) + ", time",
            "about " + (float) expected + " s at " + timeBase.samplingRateHz() + " Hz",
            timesS[i] + " s",
            "irregular sampling cannot be used; export at a constant rate");
      }
    }
  }
}
