package org.lonefibre.analysis.discharge;

import org.lonefibre.analysis.conditioning.ConditionedSignal;
import org.lonefibre.signal.interpolation.FractionalDelay;
import org.lonefibre.signal.recording.Segment;

/**
 * The shape around each spike, on a coarse grid that starts at the same place of every steep phase.
 */
final class Snippets {

  private static final double START_US = -320;
  private static final double STEP_US = 40;

  /** Number of values of a snippet. */
  static final int LENGTH = 18;

  private final float[] values;

  private Snippets(float[] values) {
    this.values = values;
  }

  static Snippets read(ConditionedSignal signal, SpikeTrain spikes) {
    double start = signal.timeBase().lengthSamples(START_US);
    double step = signal.timeBase().lengthSamples(STEP_US);
    int margin = FractionalDelay.HALF_TAPS;
    int window = (int) Math.ceil(step * LENGTH) + 2 * margin + 2;
    double[] samples = new double[window];
    float[] values = new float[spikes.count * LENGTH];
    for (int i = 0; i < spikes.count; i++) {
      Segment segment = signal.segments().get(spikes.segment[i]);
      long first = (long) Math.floor(spikes.position[i] + start) - margin;
      double origin = spikes.position[i] + start - first;
      readPadded(signal, segment, first, samples);
      for (int k = 0; k < LENGTH; k++) {
        values[i * LENGTH + k] = (float) cubic(samples, origin + k * step);
      }
    }
    return new Snippets(values);
  }

  /** Value {@code k} of spike {@code i}. */
  double value(int i, int k) {
    return values[i * LENGTH + k];
  }

  /** Squared distance of spike {@code i} to a shape. */
  double distance(int i, double[] shape) {
    double sum = 0;
    int offset = i * LENGTH;
    for (int k = 0; k < LENGTH; k++) {
      double difference = values[offset + k] - shape[k];
      sum += difference * difference;
    }
    return sum;
  }

  /** Copies the shape of spike {@code i}. */
  double[] shape(int i) {
    double[] shape = new double[LENGTH];
    for (int k = 0; k < LENGTH; k++) {
      shape[k] = values[i * LENGTH + k];
    }
    return shape;
  }

  static double energy(double[] shape) {
    double sum = 0;
    for (double value : shape) {
      sum += value * value;
    }
    return sum;
  }

  /** Reads samples; those outside the segment are zero. */
  static void readPadded(ConditionedSignal signal, Segment segment, long first, double[] samples) {
    long from = Math.max(first, segment.firstSample());
    long to = Math.min(first + samples.length, segment.endSample());
    java.util.Arrays.fill(samples, 0);
    if (to > from) {
      signal.read(from, samples, (int) (from - first), (int) (to - from));
    }
  }

  /** Value between samples, by a cubic through four of them. */
  static double cubic(double[] samples, double at) {
    int i = (int) at;
    double f = at - i;
    double a = samples[i - 1];
    double b = samples[i];
    double c = samples[i + 1];
    double d = samples[i + 2];
    return b + 0.5 * f * (c - a + f * (2 * a - 5 * b + 4 * c - d + f * (3 * (b - c) + d - a)));
  }
}
