package org.lonefibre.analysis.potential;

import org.lonefibre.signal.recording.TimeBase;

/**
 * Lets shapes end as the high-pass of the signal for timing lets a potential end once it is over:
 * exponentially. Cut off instead, what is missing of a large potential lies under its small
 * neighbour and draws the neighbour's arrival along.
 */
final class ShapeEnds {

  /** Time constant of a first-order high-pass at 1,500 Hz, the usual one of that signal. */
  static final double DECAY_US = 106;

  private static final double TAIL_US = 200;
  private static final double SMOOTHED_US = 60;

  private ShapeEnds() {}

  /** Replaces the first and last 200 us of a shape by the continuation of what lies before. */
  static void fade(double[] shape, TimeBase timeBase) {
    int tail = (int) Math.round(timeBase.lengthSamples(TAIL_US));
    int smoothed = Math.max(1, (int) Math.round(timeBase.lengthSamples(SMOOTHED_US)));
    double decay = timeBase.lengthSamples(DECAY_US);
    if (shape.length <= 2 * (tail + smoothed)) {
      return;
    }
    int last = shape.length - 1;
    double first = level(shape, tail, 1, smoothed, decay);
    double end = level(shape, last - tail, -1, smoothed, decay);
    for (int k = 0; k < tail; k++) {
      double weight =
          Math.exp(-(tail - k) / decay)
              * (0.5 - 0.5 * Math.cos(Math.PI * Math.min(1, 2 * (k + 0.5) / tail)));
      shape[k] = first * weight;
      shape[last - k] = end * weight;
    }
  }

  /** Value at an index by the exponential that fits the samples behind it best. */
  private static double level(double[] shape, int from, int step, int count, double decay) {
    double sum = 0;
    double square = 0;
    for (int j = 0; j < count; j++) {
      double model = Math.exp(j / decay);
      sum += model * shape[from + j * step];
      square += model * model;
    }
    return sum / square;
  }
}
