package org.lonefibre.analysis.sweep;

import java.util.Arrays;
import java.util.Optional;
import org.lonefibre.analysis.conditioning.ConditionedSignal;
import org.lonefibre.signal.interpolation.FractionalDelay;
import org.lonefibre.signal.recording.Segment;
import org.lonefibre.signal.robust.RobustStatistics;

/**
 * When stimuli were, from the shape of their artefacts: a marker says the sample, the artefact what
 * lies between samples. The mean artefact is moved onto each, below the sample grid.
 *
 * <ul>
 *   <li>Only if there is a large artefact of one size beside the markers, and it lies within a
 *       sample of where they say: otherwise nothing.
 *   <li>The mean of all times stays as the marker has it.
 * </ul>
 */
final class ArtefactTimes {

  private static final double AROUND_US = 300;
  private static final double LEAST_NOISE = 12;
  private static final double FARTHEST_SAMPLES = 0.8;
  private static final double SIZE_SPREAD = 0.2;
  private static final double ODD_SHARE = 0.02;
  private static final double MOST_ERROR_SAMPLES = 0.15;
  private static final double LEAST_ERROR_SAMPLES = 0.01;
  private static final int ROUNDS = 4;

  private final ConditionedSignal signal;
  private final double[] position;
  private final double[] shift;
  private final double[] size;
  private final int half;
  private final double[][] windows;
  private double error;

  private ArtefactTimes(ConditionedSignal signal, double[] position) {
    this.signal = signal;
    this.position = position;
    this.shift = new double[position.length];
    this.size = new double[position.length];
    this.half = Math.max(3, (int) Math.ceil(signal.timeBase().lengthSamples(AROUND_US)));
    this.windows = new double[position.length][];
  }

  /**
   * Better times.
   *
   * @param positionSamples the stimuli in order
   * @param errorSamples standard error of each
   */
  record Times(double[] positionSamples, double errorSamples) {}

  static Optional<Times> find(ConditionedSignal signal, double[] position) {
    ArtefactTimes times = new ArtefactTimes(signal, position);
    return position.length > 0 && times.read() && times.align()
        ? Optional.of(times.result())
        : Optional.empty();
  }

  private Times result() {
    double[] better = new double[position.length];
    for (int i = 0; i < better.length; i++) {
      better[i] = position[i] + (isOdd(i) ? 0 : shift[i]);
    }
    return new Times(better, Math.max(LEAST_ERROR_SAMPLES, error));
  }

  private boolean read() {
    int margin = margin();
    for (int i = 0; i < position.length; i++) {
      long start = start(i);
      int length = 2 * (half + margin) + 2;
      boolean inside = false;
      for (Segment segment : signal.segments()) {
        inside |= start >= segment.firstSample() && start + length <= segment.endSample();
      }
      if (!inside) {
        return false;
      }
      windows[i] = new double[length];
      signal.read(start, windows[i], 0, length);
    }
    return true;
  }

  /** Whether the mean artefact fits all. */
  private boolean align() {
    double[][] rows = new double[position.length][2 * half + 1];
    FractionalDelay delay = new FractionalDelay();
    for (int round = 0; round < ROUNDS; round++) {
      double[] mean = new double[2 * half + 1];
      for (int i = 0; i < rows.length; i++) {
        double from = position[i] + shift[i] - half - start(i);
        delay.read(windows[i], from, rows[i], rows[i].length);
        for (int k = 0; k < mean.length; k++) {
          mean[k] += rows[i][k] / rows.length;
        }
      }
      double range = Arrays.stream(mean).max().orElse(0) - Arrays.stream(mean).min().orElse(0);
      if (range < LEAST_NOISE * signal.noiseUv()) {
        return false;
      }
      fit(rows, mean);
    }
    int odd = 0;
    for (int i = 0; i < shift.length; i++) {
      odd += isOdd(i) ? 1 : 0;
    }
    return odd <= ODD_SHARE * shift.length && error <= MOST_ERROR_SAMPLES;
  }

  private void fit(double[][] rows, double[] mean) {
    double[] slope = new double[mean.length];
    for (int k = 1; k < slope.length - 1; k++) {
      slope[k] = (mean[k + 1] - mean[k - 1]) / 2;
    }
    double shapes = dot(mean, mean);
    double slopes = dot(slope, slope);
    double both = dot(mean, slope);
    double determinant = Math.max(shapes * slopes - both * both, 1e-12);
    double[] left = new double[rows.length];
    for (int i = 0; i < rows.length; i++) {
      double onMean = dot(rows[i], mean);
      double onSlope = dot(rows[i], slope);
      size[i] = (onMean * slopes - onSlope * both) / determinant;
      // A later artefact is the mean less its slope.
      double later = -(onSlope * shapes - onMean * both) / determinant;
      double energy = 0;
      for (int k = 0; k < mean.length; k++) {
        double rest = rows[i][k] - size[i] * mean[k] + later * slope[k];
        energy += rest * rest;
      }
      left[i] = Math.sqrt(energy / mean.length);
      shift[i] += later / Math.max(0.1, size[i]);
    }
    double centre = RobustStatistics.median(shift.clone());
    for (int i = 0; i < shift.length; i++) {
      shift[i] = Math.max(-2, Math.min(2, shift[i] - centre));
    }
    error = RobustStatistics.median(left) * Math.sqrt(shapes / determinant);
  }

  private boolean isOdd(int i) {
    return Math.abs(shift[i]) > FARTHEST_SAMPLES || Math.abs(size[i] - 1) > SIZE_SPREAD;
  }

  private long start(int i) {
    return (long) Math.floor(position[i]) - half - margin();
  }

  private static int margin() {
    return FractionalDelay.HALF_TAPS + 3;
  }

  private static double dot(double[] a, double[] b) {
    double sum = 0;
    for (int k = 0; k < a.length; k++) {
      sum += a[k] * b[k];
    }
    return sum;
  }
}
