package org.lonefibre.formats.text;

import java.math.BigDecimal;
import java.math.BigInteger;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.function.IntUnaryOperator;
import org.jspecify.annotations.Nullable;
import org.lonefibre.signal.recording.RecordingFormatException;
import org.lonefibre.signal.recording.Segment;
import org.lonefibre.signal.recording.TimeBase;

/**
 * Rate and continuous stretches from a column of times, allowing for the rounding of its digits.
 *
 * <ol>
 *   <li>A step of more than one and a half usual ones, and of more than rounding explains, is a
 *       jump of time and ends a stretch.
 *   <li>The rate is the roundest whole number, else halves, quarters or eighths (clocks are halved
 *       to make rates), else the simplest fraction that the longest stretch allows within one digit
 *       at each end.
 *   <li>Every time must lie within its digits and a fifth of a sample of the time so expected.
 * </ol>
 */
final class TimeColumn {

  private static final int SAMPLED_STEPS = 10_000;

  private final String file;
  private final NumberColumn times;
  private final NumberColumn decimals;
  private final double scale;
  private final IntUnaryOperator lineOfRow;

  /**
   * @param decimals most decimals with which the times of each block of rows were written; one time
   *     alone may lack zeros at its end
   * @param exponent decimal places by which times are moved to become seconds
   */
  TimeColumn(
      String file,
      NumberColumn times,
      NumberColumn decimals,
      int exponent,
      IntUnaryOperator lineOfRow) {
    this.file = file;
    this.times = times;
    this.decimals = decimals;
    this.scale = Math.pow(10, exponent);
    this.lineOfRow = lineOfRow;
  }

  /** What a column of times says. */
  record Found(TimeBase timeBase, List<Segment> segments) {
    Found {
      segments = List.copyOf(segments);
    }
  }

  /**
   * Rate and stretches.
   *
   * @param givenHz rate given by the user, used instead of the one found; null if none
   */
  Found find(@Nullable Double givenHz) throws RecordingFormatException {
    int n = times.size();
    if (n < 3) {
      throw new RecordingFormatException(
          file, "the time column", "at least three times", n + " times", "export a longer stretch");
    }
    double usual = usualStep();
    List<int[]> runs = new ArrayList<>();
    int first = 0;
    for (int i = 1; i < n; i++) {
      double step = time(i) - time(i - 1);
      if (!(step > 0)) {
        throw new RecordingFormatException(
            file,
            "line " + lineOfRow.applyAsInt(i) + ", time",
            "a time after " + (float) time(i - 1) + " s",
            (float) time(i) + " s",
            "export the recording again, with more digits in its times");
      }
      if (step > 1.5 * usual && step > 1.1 * usual + 1.01 * digit(i)) {
        runs.add(new int[] {first, i});
        first = i;
      }
    }
    runs.add(new int[] {first, n});
    TimeBase timeBase = givenHz != null ? TimeBase.ofHz(givenHz) : rate(runs);
    List<Segment> segments = new ArrayList<>();
    for (int[] run : runs) {
      check(run, timeBase);
      segments.add(new Segment(run[0], run[1] - run[0], time(run[0]) - time(0)));
    }
    return new Found(timeBase, segments);
  }

  /** Whether the usual step is that of a rate. */
  boolean fits(double samplingRateHz) {
    return times.size() > 2 && Math.abs(usualStep() * samplingRateHz - 1) < 0.1;
  }

  private double time(int row) {
    return times.at(row) / scale;
  }

  /** One unit of the last digit with which times near a row are written, in seconds. */
  private double digit(int row) {
    int block = row / TextTable.DECIMALS_ROWS;
    double most = decimals.at(Math.min(block, decimals.size() - 1));
    for (int b = Math.max(0, block - 1); b < Math.min(decimals.size(), block + 2); b++) {
      most = Math.max(most, decimals.at(b));
    }
    return Math.pow(10, -most) / scale;
  }

  /** Mean of the steps that are no jumps, over steps spread evenly through the column. */
  private double usualStep() {
    int n = times.size() - 1;
    int count = Math.min(n, SAMPLED_STEPS);
    double[] steps = new double[count];
    for (int k = 0; k < count; k++) {
      int i = (int) ((long) k * n / count);
      steps[k] = time(i + 1) - time(i);
    }
    Arrays.sort(steps);
    double limit = 1.5 * steps[count / 2] + digit(n);
    double sum = 0;
    int used = 0;
    while (used < count && (used == 0 || steps[used] <= limit)) {
      sum += steps[used];
      used++;
    }
    return sum / used;
  }

  private TimeBase rate(List<int[]> runs) throws RecordingFormatException {
    int[] longest = runs.get(0);
    for (int[] run : runs) {
      longest = run[1] - run[0] > longest[1] - longest[0] ? run : longest;
    }
    int last = longest[1] - 1;
    int steps = last - longest[0];
    if (steps < 2) {
      throw new RecordingFormatException(
          file,
          "line " + lineOfRow.applyAsInt(longest[0]) + ", time",
          "three times at an even step",
          "jumps",
          "export at a constant rate");
    }
    double span = time(last) - time(longest[0]);
    double rate = steps / span;
    double slack = rate * (digit(last) + digit(longest[0])) / span + 1e-12 * rate;
    for (int digits = -3; digits <= 0; digits++) {
      BigDecimal rounded = BigDecimal.valueOf(rate).setScale(digits, RoundingMode.HALF_EVEN);
      if (rounded.signum() > 0 && Math.abs(rounded.doubleValue() - rate) <= slack) {
        return TimeBase.ofHz(rounded.longValueExact());
      }
    }
    for (int part = 2; part <= 8; part *= 2) {
      double parts = Math.rint(rate * part);
      if (Math.abs(parts / part - rate) <= slack) {
        return new TimeBase((long) parts, part);
      }
    }
    return simplest(rate - slack, rate + slack);
  }

  /** The fraction with the smallest denominator between two rates. */
  private static TimeBase simplest(double low, double high) {
    BigInteger[] fraction =
        simplest(new BigDecimal(Math.max(low, 1e-6)), new BigDecimal(Math.max(high, 1e-6)), 40);
    return new TimeBase(fraction[0].longValueExact(), fraction[1].longValueExact());
  }

  /** By the continued fraction of the interval's ends. */
  private static BigInteger[] simplest(BigDecimal low, BigDecimal high, int depth) {
    BigInteger whole = low.setScale(0, RoundingMode.CEILING).toBigInteger();
    if (new BigDecimal(whole).compareTo(high) <= 0 || depth == 0) {
      return new BigInteger[] {whole, BigInteger.ONE};
    }
    BigInteger below = whole.subtract(BigInteger.ONE);
    BigDecimal base = new BigDecimal(below);
    BigInteger[] rest =
        simplest(
            BigDecimal.ONE.divide(high.subtract(base), 40, RoundingMode.HALF_EVEN),
            BigDecimal.ONE.divide(low.subtract(base), 40, RoundingMode.HALF_EVEN),
            depth - 1);
    return new BigInteger[] {below.multiply(rest[0]).add(rest[1]), rest[0]};
  }

  private void check(int[] run, TimeBase timeBase) throws RecordingFormatException {
    double startS = time(run[0]);
    double firstDigit = digit(run[0]);
    for (int i = run[0]; i < run[1]; i++) {
      double expected = startS + timeBase.timeS(i - run[0]);
      double off = Math.abs(time(i) - expected) - 0.2 * timeBase.timeS(1);
      if (off > 0 && off > 1.5 * Math.max(digit(i), firstDigit)) {
        throw new RecordingFormatException(
            file,
            "line " + lineOfRow.applyAsInt(i) + ", time",
            "about " + (float) expected + " s at " + timeBase.samplingRateHz() + " Hz",
            (float) time(i) + " s",
            "irregular sampling cannot be used; export at a constant rate");
      }
    }
  }
}
