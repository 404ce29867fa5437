package org.lonefibre.analysis.grading;

import java.util.ArrayList;
import java.util.List;
import org.lonefibre.signal.interpolation.FractionalDelay;
import org.lonefibre.signal.recording.TimeBase;

/**
 * How far sweeps are from a shape that may be moved a little and be a little larger or smaller:
 * energy left, over that of the baseline. Sweeps that hold the same and noise are 1 apart.
 */
final class SweepDistance {

  static final double STEP_US = 10;

  private static final int STEPS = 16;
  private static final double SIZE_SPREAD = 0.1;

  private final List<double[]> rows;
  private final int from;
  private final int to;
  private final double stepSamples;
  private final double baseline;
  private final FractionalDelay delay = new FractionalDelay();

  /**
   * @param rows the sweeps, wider than what is compared
   * @param from first sample compared
   * @param to end of what is compared
   * @param baseline energy of the baseline in that many samples
   */
  SweepDistance(List<double[]> rows, int from, int to, double baseline, TimeBase timeBase) {
    this.rows = rows;
    this.from = from;
    this.to = to;
    this.baseline = Math.max(baseline, 1e-12);
    this.stepSamples = timeBase.lengthSamples(STEP_US);
  }

  /** Distances of all sweeps from a shape, and by how much the shape is to be moved for each. */
  record Fit(double[] distance, double[] shiftSamples) {}

  Fit fit(double[] shape) {
    double[][] moved = moved(shape, STEPS);
    double[] norm = new double[moved.length];
    for (int s = 0; s < moved.length; s++) {
      norm[s] = Math.max(Wave.dot(moved[s], moved[s]), 1e-12);
    }
    Fit fit = new Fit(new double[rows.size()], new double[rows.size()]);
    double[] energy = new double[moved.length];
    for (int i = 0; i < rows.size(); i++) {
      double own = own(i);
      int best = 0;
      for (int s = 0; s < moved.length; s++) {
        double product = product(i, moved[s]);
        double size = Math.max(1 - SIZE_SPREAD, Math.min(1 + SIZE_SPREAD, product / norm[s]));
        energy[s] = own - 2 * size * product + size * size * norm[s];
        best = energy[s] < energy[best] ? s : best;
      }
      double turn = 0;
      double least = energy[best];
      if (best > 0 && best < energy.length - 1) {
        double bend = energy[best - 1] - 2 * energy[best] + energy[best + 1];
        double tilt = (energy[best + 1] - energy[best - 1]) / 2;
        turn = bend > 0 ? -tilt / bend : 0;
        least = bend > 0 ? least - tilt * tilt / (2 * bend) : least;
      }
      fit.distance()[i] = Math.max(0, least) / baseline;
      fit.shiftSamples()[i] = (best - STEPS + turn) * stepSamples;
    }
    return fit;
  }

  /** Mean of some sweeps, each moved back by its shift. */
  double[] mean(boolean[] group, double[] shiftSamples) {
    double[] mean = new double[rows.get(0).length];
    double[] row = new double[mean.length];
    int n = 0;
    for (int i = 0; i < group.length; i++) {
      if (group[i]) {
        delay.read(rows.get(i), shiftSamples[i], row, row.length);
        for (int k = 0; k < mean.length; k++) {
          mean[k] += row[k];
        }
        n++;
      }
    }
    return Wave.times(1.0 / Math.max(1, n), mean);
  }

  /**
   * What one more fibre of the shape's form explains.
   *
   * @param sizeRatio its size over that of the shape, 0 or more
   * @param leftRatio energy left with it over energy left without it
   * @param delayUs how much later it is
   */
  record Second(double sizeRatio, double leftRatio, double delayUs) {}

  /** What some sweeps hold beside the shape. */
  List<Second> seconds(double[] shape, boolean[] group, int farthest) {
    double[][] moved = moved(shape, farthest);
    int n = moved.length;
    double[][] gram = new double[n][n];
    for (int s = 0; s < n; s++) {
      for (int t = s; t < n; t++) {
        gram[s][t] = Wave.dot(moved[s], moved[t]);
        gram[t][s] = gram[s][t];
      }
    }
    List<Second> found = new ArrayList<>();
    double[] product = new double[n];
    for (int i = 0; i < group.length; i++) {
      if (!group[i]) {
        continue;
      }
      double own = own(i);
      double alone = Double.POSITIVE_INFINITY;
      for (int s = 0; s < n; s++) {
        product[s] = product(i, moved[s]);
        if (Math.abs(s - farthest) <= STEPS) {
          alone = Math.min(alone, own - 2 * product[s] + gram[s][s]);
        }
      }
      double least = Double.POSITIVE_INFINITY;
      double size = 0;
      double delay = 0;
      for (int s = farthest - STEPS; s <= farthest + STEPS; s++) {
        double left = own - 2 * product[s] + gram[s][s];
        for (int t = 0; t < n; t++) {
          double more = Math.max(0, product[t] - gram[s][t]) / Math.max(gram[t][t], 1e-12);
          double both = left - more * more * gram[t][t];
          if (both < least) {
            least = both;
            size = more;
            delay = (t - s) * STEP_US;
          }
        }
      }
      found.add(new Second(size, least / Math.max(alone, 1e-12), delay));
    }
    return found;
  }

  private double[][] moved(double[] shape, int steps) {
    double[][] moved = new double[2 * steps + 1][to - from];
    for (int s = -steps; s <= steps; s++) {
      delay.read(shape, from - s * stepSamples, moved[s + steps], to - from);
    }
    return moved;
  }

  private double own(int i) {
    double sum = 0;
    double[] row = rows.get(i);
    for (int k = from; k < to; k++) {
      sum += row[k] * row[k];
    }
    return sum;
  }

  private double product(int i, double[] moved) {
    double sum = 0;
    double[] row = rows.get(i);
    for (int k = from; k < to; k++) {
      sum += row[k] * moved[k - from];
    }
    return sum;
  }
}
