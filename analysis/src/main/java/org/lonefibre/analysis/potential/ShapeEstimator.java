package org.lonefibre.analysis.potential;

import java.util.Arrays;
import org.lonefibre.analysis.conditioning.ConditionedSignal;
import org.lonefibre.signal.interpolation.FractionalDelay;
import org.lonefibre.signal.robust.RobustStatistics;

/**
 * Estimates the shapes of the potentials of a unit: the mean over discharges aligned on the
 * arrival, after the other potentials have been taken out, discharges that do not fit left aside.
 */
final class ShapeEstimator {

  private static final int MOST_DISCHARGES = 250;
  private static final double OUTLIER = 3;
  private static final double LEAST_SHARE_US = 220;
  private static final double SHARE = 0.6;
  private static final double FREE_US = 600;
  private static final double EDGE_US = 160;

  private final PotentialSettings settings;
  private final ConditionedSignal signal;
  private final TrackedSite site;
  private final WindowReader windows;
  private final FractionalDelay delay = new FractionalDelay();

  ShapeEstimator(
      PotentialSettings settings,
      ConditionedSignal signal,
      TrackedSite site,
      WindowReader windows) {
    this.settings = settings;
    this.signal = signal;
    this.site = site;
    this.windows = windows;
  }

  /** How far a shape may reach. */
  enum Reach {
    /** Not into its neighbours: a safe beginning. */
    CONFINED,
    /** Its whole length: right once the neighbours are known. */
    WHOLE
  }

  /** Shapes as they are, as far as they reach by the settings; they are to be improved then. */
  void lengthen(UnitTrack unit) {
    for (int p = 0; p < unit.potentials; p++) {
      unit.shape[p] =
          unit.shape[p].reaching(
              samples(settings.shapeBeforeUs()), samples(settings.shapeAfterUs()));
    }
  }

  private int samples(double lengthUs) {
    return (int) Math.ceil(signal.timeBase().lengthSamples(lengthUs));
  }

  /** New shapes for all potentials of a unit; arrivals stay. */
  void estimate(UnitTrack unit, int unitIndex, Reach reach) {
    int before = samples(settings.shapeBeforeUs());
    int length = before + samples(settings.shapeAfterUs()) + 1;
    for (int p = 0; p < unit.potentials; p++) {
      int[] chosen = chosen(unit, p);
      if (chosen.length == 0) {
        if (unit.shape[p] == null) {
          unit.shape[p] = new PotentialShape(new double[length], before);
        }
        continue;
      }
      double[][] aligned = new double[chosen.length][length];
      for (int i = 0; i < chosen.length; i++) {
        align(unit, unitIndex, p, chosen[i], before, aligned[i]);
      }
      double[] mean = centre(aligned);
      if (reach == Reach.CONFINED) {
        confine(mean, before, unit, p);
      } else {
        ShapeEnds.fade(mean, signal.timeBase());
      }
      unit.shape[p] = new PotentialShape(mean, before);
    }
  }

  /** Discharges in which the potential is present, spread over the recording. */
  private int[] chosen(UnitTrack unit, int potential) {
    int[] all = new int[unit.discharges];
    int n = 0;
    for (int d = 0; d < unit.discharges; d++) {
      if (unit.isPresent(d, potential)) {
        all[n++] = d;
      }
    }
    if (n <= MOST_DISCHARGES) {
      return Arrays.copyOf(all, n);
    }
    int[] spread = new int[MOST_DISCHARGES];
    for (int i = 0; i < MOST_DISCHARGES; i++) {
      spread[i] = all[(int) ((long) i * n / MOST_DISCHARGES)];
    }
    return spread;
  }

  private void align(
      UnitTrack unit, int unitIndex, int potential, int discharge, int before, double[] row) {
    double arrival = unit.arrival[discharge][potential];
    long start = (long) Math.floor(arrival) - before - FractionalDelay.HALF_TAPS;
    double[] window = new double[row.length + 2 * FractionalDelay.HALF_TAPS + 2];
    windows.read(unit.segment[discharge], start, window);
    site.takeOut(window, start, unitIndex);
    for (int q = 0; q < unit.potentials; q++) {
      PotentialShape other = unit.shape[q];
      if (q != potential && other != null && unit.isPresent(discharge, q)) {
        other.addTo(window, unit.arrival[discharge][q] - start, -unit.scale[discharge][q]);
      }
    }
    delay.read(window, arrival - start - before, row, row.length);
    double scale = unit.scale[discharge][potential];
    for (int k = 0; k < row.length; k++) {
      row[k] /= scale;
    }
  }

  /** Median first, then the mean of the rows that lie near it. */
  private static double[] centre(double[][] rows) {
    int length = rows[0].length;
    double[] median = new double[length];
    double[] column = new double[rows.length];
    for (int k = 0; k < length; k++) {
      for (int i = 0; i < rows.length; i++) {
        column[i] = rows[i][k];
      }
      median[k] = RobustStatistics.median(column);
    }
    double[] misfit = new double[rows.length];
    for (int i = 0; i < rows.length; i++) {
      for (int k = 0; k < length; k++) {
        double difference = rows[i][k] - median[k];
        misfit[i] += difference * difference;
      }
    }
    double usual = RobustStatistics.median(misfit);
    double[] mean = new double[length];
    int n = 0;
    for (int i = 0; i < rows.length; i++) {
      if (misfit[i] <= OUTLIER * usual) {
        n++;
        for (int k = 0; k < length; k++) {
          mean[k] += rows[i][k];
        }
      }
    }
    for (int k = 0; k < length; k++) {
      mean[k] /= n;
    }
    return mean;
  }

  /**
   * Lets the shape end near zero: at its ends, and half way to a neighbour of the unit, so that one
   * shape does not take up what belongs to the other.
   */
  private void confine(double[] shape, int origin, UnitTrack unit, int p) {
    double least = signal.timeBase().lengthSamples(LEAST_SHARE_US);
    double free = signal.timeBase().lengthSamples(FREE_US);
    double from = -origin - 1.0;
    double to = shape.length - origin;
    for (int q = 0; q < unit.potentials; q++) {
      double distance = unit.lag[q] - unit.lag[p];
      if (q == p) {
        continue;
      }
      if (distance > 0) {
        to = Math.min(to, Math.max(least, Math.max(distance * SHARE, distance - free)));
      } else {
        from = Math.max(from, Math.min(-least, Math.min(distance * (1 - SHARE), distance + free)));
      }
    }
    double edge = signal.timeBase().lengthSamples(EDGE_US);
    for (int k = 0; k < shape.length; k++) {
      double inside = Math.min(k - origin - from, to - (k - origin)) / edge;
      if (inside <= 0) {
        shape[k] = 0;
      } else if (inside < 1) {
        shape[k] *= 0.5 - 0.5 * Math.cos(Math.PI * inside);
      }
    }
  }
}
