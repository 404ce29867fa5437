package org.lonefibre.analysis.potential;

import java.util.Arrays;
import org.lonefibre.analysis.conditioning.ConditionedSignal;
import org.lonefibre.signal.interpolation.FractionalDelay;

/**
 * Finds a small potential that hides in the shape of a large one near by: in the mean it looks like
 * a part of the larger, but it moves against it, so that what is left of each discharge varies at
 * its place far more than noise does, and more than a shape that widens; and much of that from one
 * discharge to the next: a shape that changes slowly, as in a fibre that tires or cools, holds no
 * such part.
 */
final class MovingParts {

  private static final int MOST_DISCHARGES = 150;
  private static final int FEWEST = 12;
  private static final double NEAREST_US = 330;
  private static final double SMOOTHED_US = 100;
  private static final double LEAST_RATIO = 2.3;
  private static final double LEAST_SHARE = 0.04;
  private static final double TRIM = 0.1;

  /** Least part of the variation that comes from one discharge to the next. */
  private static final double SUDDEN_SHARE = 0.5;

  private final ConditionedSignal signal;
  private final TrackedSite site;
  private final WindowReader windows;

  MovingParts(ConditionedSignal signal, TrackedSite site, WindowReader windows) {
    this.signal = signal;
    this.site = site;
    this.windows = windows;
  }

  /** The place of the part that moves most, in samples from lag 0; NaN if none does. */
  double place(UnitTrack unit, int unitIndex) {
    double most = LEAST_RATIO;
    double place = Double.NaN;
    for (int p = 0; p < unit.potentials; p++) {
      double[][] left = left(unit, unitIndex, p);
      if (left.length < FEWEST) {
        continue;
      }
      double[] ratio = variation(left);
      if (Arrays.stream(ratio).noneMatch(r -> r > LEAST_RATIO)) {
        continue;
      }
      double[] sudden = variation(changes(left));
      new ShapeWidening(unit.shape[p]).takeOut(left);
      double[] beyondWidth = variation(left);
      for (int k = 0; k < ratio.length; k++) {
        double at = k - unit.shape[p].origin() + unit.lag[p];
        boolean moves =
            ratio[k] > most && beyondWidth[k] > LEAST_RATIO && sudden[k] > SUDDEN_SHARE * ratio[k];
        if (moves && isApart(unit, at) && isPart(unit.shape[p], k)) {
          most = ratio[k];
          place = at;
        }
      }
    }
    return place;
  }

  private boolean isApart(UnitTrack unit, double at) {
    double nearest = signal.timeBase().lengthSamples(NEAREST_US);
    return Arrays.stream(unit.lag).noneMatch(lag -> Math.abs(lag - at) < nearest);
  }

  /** Whether the shape itself has a spike there. */
  private boolean isPart(PotentialShape shape, int k) {
    int half = (int) signal.timeBase().lengthSamples(1.5 * SMOOTHED_US);
    double[] samples = shape.samples();
    double[] near =
        Arrays.copyOfRange(samples, Math.max(0, k - half), Math.min(samples.length, k + half + 1));
    double size = Arrays.stream(near).max().orElse(0) - Arrays.stream(near).min().orElse(0);
    return size > LEAST_SHARE * shape.peakToPeakUv() && size > 5 * signal.noiseUv();
  }

  /** What is left around a potential in the discharges in which it is present. */
  private double[][] left(UnitTrack unit, int unitIndex, int p) {
    int length = unit.shape[p].length();
    int margin = FractionalDelay.HALF_TAPS;
    double[] window = new double[length + 2 * margin + 2];
    double[][] rows = new double[MOST_DISCHARGES][];
    FractionalDelay delay = new FractionalDelay();
    int step = Math.max(1, unit.discharges / MOST_DISCHARGES + 1);
    int n = 0;
    for (int d = 0; d < unit.discharges && n < rows.length; d += step) {
      if (!unit.isPresent(d, p)) {
        continue;
      }
      double from = unit.arrival[d][p] - unit.shape[p].origin();
      long start = (long) Math.floor(from) - margin;
      windows.read(unit.segment[d], start, window);
      site.takeOut(window, start, unitIndex);
      for (int q = 0; q < unit.potentials; q++) {
        if (unit.isPresent(d, q)) {
          unit.shape[q].addTo(window, unit.arrival[d][q] - start, -unit.scale[d][q]);
        }
      }
      rows[n] = new double[length];
      delay.read(window, from - start, rows[n++], length);
    }
    return Arrays.copyOf(rows, n);
  }

  /** Differences of successive rows, scaled to the variance that independent rows have. */
  private static double[][] changes(double[][] rows) {
    double[][] changes = new double[rows.length - 1][rows[0].length];
    for (int i = 0; i < changes.length; i++) {
      for (int k = 0; k < changes[i].length; k++) {
        changes[i][k] = (rows[i + 1][k] - rows[i][k]) / Math.sqrt(2);
      }
    }
    return changes;
  }

  /** Trimmed mean square of rows at each sample, smoothed, over that of noise. */
  private double[] variation(double[][] rows) {
    int n = rows.length;
    double[] ratio = new double[rows[0].length];
    double noise = signal.noiseUv() * signal.noiseUv();
    for (int k = 0; k < ratio.length; k++) {
      double[] squares = new double[n];
      for (int i = 0; i < n; i++) {
        squares[i] = rows[i][k] * rows[i][k];
      }
      Arrays.sort(squares);
      int kept = Math.max(1, (int) ((1 - TRIM) * n));
      ratio[k] = Arrays.stream(squares, 0, kept).sum() / kept / noise;
    }
    return smoothed(ratio);
  }

  private double[] smoothed(double[] values) {
    int half = (int) signal.timeBase().lengthSamples(SMOOTHED_US / 2);
    double[] smooth = new double[values.length];
    for (int k = half; k < values.length - half; k++) {
      smooth[k] = Arrays.stream(values, k - half, k + half + 1).sum() / (2 * half + 1);
    }
    return smooth;
  }
}
