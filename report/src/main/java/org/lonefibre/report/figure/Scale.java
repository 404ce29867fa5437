package org.lonefibre.report.figure;

import java.util.ArrayList;
import java.util.List;
import org.lonefibre.report.document.Rounded;

/**
 * A straight axis: from values to pixels.
 *
 * @param low value at {@code fromPixel}
 * @param high value at {@code toPixel}, more than {@code low}
 * @param fromPixel place of the low value
 * @param toPixel place of the high value
 */
record Scale(double low, double high, double fromPixel, double toPixel) {

  Scale {
    if (!(high > low)) {
      throw new IllegalArgumentException("high must be more than low " + low + ", found " + high);
    }
  }

  /** A scale that holds both ends and spans at least so much. */
  static Scale holding(
      double low, double high, double leastSpan, double fromPixel, double toPixel) {
    double middle = (low + high) / 2;
    double half = Math.max(high - low, leastSpan) / 2;
    return new Scale(middle - half, middle + half, fromPixel, toPixel);
  }

  double at(double value) {
    return fromPixel + (value - low) / (high - low) * (toPixel - fromPixel);
  }

  boolean holds(double value) {
    return value >= low && value <= high;
  }

  double clamped(double value) {
    return at(Math.max(low, Math.min(high, value)));
  }

  /** Round values, about so many. */
  List<Double> ticks(int wanted) {
    double step = step((high - low) / wanted);
    List<Double> ticks = new ArrayList<>();
    for (long i = (long) Math.ceil(low / step - 1e-9); i * step <= high + 1e-9 * step; i++) {
      ticks.add(i * step);
    }
    return ticks;
  }

  /** The label of a tick. */
  static String label(double tick) {
    return Rounded.shortest(tick, 3);
  }

  /** The round step (1, 2 or 5 by a power of ten) that is not less than the least. */
  static double step(double least) {
    double power = Math.pow(10, Math.floor(Math.log10(least)));
    for (double factor : new double[] {1, 2, 5}) {
      if (factor * power >= least * (1 - 1e-9)) {
        return factor * power;
      }
    }
    return 10 * power;
  }
}
