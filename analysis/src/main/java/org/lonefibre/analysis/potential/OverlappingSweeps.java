package org.lonefibre.analysis.potential;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.jtransforms.fft.DoubleFFT_1D;
import org.lonefibre.signal.robust.RobustStatistics;

/**
 * Discharges of a unit whose shapes overlap, ready to be explained again and again: the spectrum of
 * each window is kept, only arrivals and sizes change between one separation and the next.
 *
 * <ul>
 *   <li>Taken are discharges that the shapes of the beginning explain about as well as the others.
 *   <li>Thread rule: one thread at a time.
 * </ul>
 */
final class OverlappingSweeps {

  private static final int FEWEST = 8;
  private static final double OUTLIER = 20;

  private final int unitIndex;
  private final TrackedSite site;
  private final WindowReader windows;
  private final double earliest;
  private final int margin;
  private final int size;
  private final int[] chosen;
  private final long[] start;
  private final DoubleFFT_1D transform;
  private final ShapeSystem.Spectrum[] spectrum;

  private OverlappingSweeps(
      UnitTrack unit, int unitIndex, int every, TrackedSite site, WindowReader windows) {
    this.unitIndex = unitIndex;
    this.site = site;
    this.windows = windows;
    this.earliest = Arrays.stream(unit.lag).min().orElse(0);
    double latest = Arrays.stream(unit.lag).max().orElse(0);
    this.margin = unit.shape[0].origin() + unit.shape[0].length();
    this.size = Integer.highestOneBit((int) (latest - earliest) + 2 * margin) * 2;
    this.transform = new DoubleFFT_1D(size);
    List<double[]> kept = new ArrayList<>();
    this.chosen = chosen(unit, every, kept);
    this.start = Arrays.stream(chosen).mapToLong(d -> start(unit, d)).toArray();
    this.spectrum =
        kept.stream()
            .map(window -> new ShapeSystem.Spectrum(window, transform))
            .toArray(ShapeSystem.Spectrum[]::new);
  }

  /** Every so many discharges of a unit, with what other units put there taken out. */
  static OverlappingSweeps of(
      UnitTrack unit, int unitIndex, int every, TrackedSite site, WindowReader windows) {
    return new OverlappingSweeps(unit, unitIndex, every, site, windows);
  }

  /**
   * Better shapes for the arrivals of a unit, {@code [potential][sample]}; its own if there are too
   * few discharges.
   */
  double[][] separated(UnitTrack unit, ShapePrior.Weight[] weights) {
    double[][] near = unit.shapeSamples();
    if (chosen.length < FEWEST) {
      return near;
    }
    int before = unit.shape[0].origin();
    int n = unit.potentials;
    ShapeSystem system = new ShapeSystem(n, size, transform);
    double[] place = new double[n];
    double[] scale = new double[n];
    for (int i = 0; i < chosen.length; i++) {
      int d = chosen[i];
      for (int p = 0; p < n; p++) {
        place[p] = unit.arrival[d][p] - start[i] - before;
        scale[p] = unit.isPresent(d, p) ? unit.scale[d][p] : 0;
      }
      if (isKnown(unit, d)) {
        system.add(spectrum[i], place, scale);
      }
    }
    return system.solve(near, weights);
  }

  private static boolean isKnown(UnitTrack unit, int d) {
    return Arrays.stream(unit.presence[d]).noneMatch(Presence.UNCERTAIN::equals);
  }

  private long start(UnitTrack unit, int d) {
    return (long) Math.floor(unit.reference[d] + earliest) - margin;
  }

  private double[] window(UnitTrack unit, int d) {
    double[] window = new double[size];
    long from = start(unit, d);
    windows.read(unit.segment[d], from, window);
    site.takeOut(window, from, unitIndex);
    return window;
  }

  /**
   * The discharges that are taken.
   *
   * @param kept receives the window of each
   */
  private int[] chosen(UnitTrack unit, int every, List<double[]> kept) {
    List<double[]> seen = new ArrayList<>();
    int[] all = new int[unit.discharges];
    double[] misfit = new double[unit.discharges];
    int n = 0;
    for (int d = 0; d < unit.discharges; d += every) {
      if (isKnown(unit, d)) {
        double[] window = window(unit, d);
        seen.add(window);
        misfit[n] = misfit(unit, d, window.clone());
        all[n++] = d;
      }
    }
    double usual = n == 0 ? 0 : RobustStatistics.median(Arrays.copyOf(misfit, n));
    int[] taken = new int[n];
    for (int i = 0; i < n; i++) {
      if (misfit[i] <= OUTLIER * usual) {
        taken[kept.size()] = all[i];
        kept.add(seen.get(i));
      }
    }
    return Arrays.copyOf(taken, kept.size());
  }

  /** What the shapes leave of a window, which is used up; sum of squares. */
  private double misfit(UnitTrack unit, int d, double[] window) {
    for (int p = 0; p < unit.potentials; p++) {
      if (unit.isPresent(d, p)) {
        unit.shape[p].addTo(window, unit.arrival[d][p] - start(unit, d), -unit.scale[d][p]);
      }
    }
    double sum = 0;
    for (double value : window) {
      sum += value * value;
    }
    return sum;
  }
}
