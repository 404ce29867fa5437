package org.lonefibre.analysis.potential;

import java.util.Arrays;
import org.lonefibre.analysis.conditioning.ConditionedSignal;
import org.lonefibre.signal.robust.RobustStatistics;

/**
 * Separates shapes that overlap: the shapes that, placed at their arrivals, explain all discharges
 * best ({@link ShapeSystem}). What the variation of the intervals cannot separate is decided by
 * what is known of potentials of one fibre ({@link ShapePrior}).
 */
final class ShapeSeparator {

  private static final int MOST_DISCHARGES = 200;
  private static final double OUTLIER = 20;

  private final PotentialSettings settings;
  private final ConditionedSignal signal;
  private final TrackedSite site;
  private final WindowReader windows;
  private final ShapePrior prior;

  ShapeSeparator(
      PotentialSettings settings,
      ConditionedSignal signal,
      TrackedSite site,
      WindowReader windows) {
    this.settings = settings;
    this.signal = signal;
    this.site = site;
    this.windows = windows;
    this.prior = new ShapePrior(signal);
  }

  /** Whether potentials of a unit lie so near that their shapes overlap. */
  boolean isNeeded(UnitTrack unit) {
    double near = signal.timeBase().lengthSamples(settings.shapeAfterUs() + 200);
    for (int p = 0; p < unit.potentials; p++) {
      for (int q = 0; q < p; q++) {
        if (Math.abs(unit.lag[p] - unit.lag[q]) < near) {
          return true;
        }
      }
    }
    return false;
  }

  /** Only every so many discharges are looked at: in a long recording a part of them is enough. */
  int every(UnitTrack unit) {
    return Math.max(1, unit.discharges / MOST_DISCHARGES);
  }

  /** What is known of the shapes of a unit as they are now. */
  ShapePrior.Weight[] weights(UnitTrack unit) {
    return Arrays.stream(unit.shape).map(prior::weight).toArray(ShapePrior.Weight[]::new);
  }

  /** Better shapes; arrivals stay. */
  void separate(UnitTrack unit, int unitIndex, ShapePrior.Weight[] weights) {
    int before = unit.shape[0].origin();
    int length = unit.shape[0].length();
    double earliest = Arrays.stream(unit.lag).min().orElse(0);
    double latest = Arrays.stream(unit.lag).max().orElse(0);
    int margin = before + length;
    int size = Integer.highestOneBit((int) (latest - earliest) + 2 * margin) * 2;
    int[] chosen = chosen(unit, unitIndex, earliest, margin, size);
    if (chosen.length < 8) {
      return;
    }
    int n = unit.potentials;
    ShapeSystem system = new ShapeSystem(n, size);
    double[] place = new double[n];
    double[] scale = new double[n];
    for (int d : chosen) {
      long start = (long) Math.floor(unit.reference[d] + earliest) - margin;
      for (int p = 0; p < n; p++) {
        place[p] = unit.arrival[d][p] - start - before;
        scale[p] = unit.isPresent(d, p) ? unit.scale[d][p] : 0;
      }
      system.add(window(unit, unitIndex, d, start, size), place, scale);
    }
    double[][] near = new double[n][];
    for (int p = 0; p < n; p++) {
      near[p] = unit.shape[p].samples();
    }
    double[][] shapes = system.solve(near, weights);
    for (int p = 0; p < n; p++) {
      unit.shape[p] = new PotentialShape(shapes[p], before);
    }
  }

  private double[] window(UnitTrack unit, int unitIndex, int d, long start, int size) {
    double[] window = new double[size];
    windows.read(unit.segment[d], start, window);
    site.takeOut(window, start, unitIndex);
    return window;
  }

  /** Discharges that the present shapes explain about as well as the others. */
  private int[] chosen(UnitTrack unit, int unitIndex, double earliest, int margin, int size) {
    int step = every(unit);
    int[] all = new int[unit.discharges];
    double[] misfit = new double[unit.discharges];
    int n = 0;
    for (int d = 0; d < unit.discharges; d += step) {
      long start = (long) Math.floor(unit.reference[d] + earliest) - margin;
      double[] window = window(unit, unitIndex, d, start, size);
      boolean known = true;
      for (int p = 0; p < unit.potentials; p++) {
        known &= unit.presence[d][p] != Presence.UNCERTAIN;
        if (unit.isPresent(d, p)) {
          unit.shape[p].addTo(window, unit.arrival[d][p] - start, -unit.scale[d][p]);
        }
      }
      if (known) {
        for (double value : window) {
          misfit[n] += value * value;
        }
        all[n++] = d;
      }
    }
    double usual = n == 0 ? 0 : RobustStatistics.median(Arrays.copyOf(misfit, n));
    int[] kept = new int[n];
    int k = 0;
    for (int i = 0; i < n; i++) {
      if (misfit[i] <= OUTLIER * usual) {
        kept[k++] = all[i];
      }
    }
    return Arrays.copyOf(kept, k);
  }
}
