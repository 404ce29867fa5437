package org.lonefibre.analysis.potential;

import java.util.Arrays;
import org.jtransforms.fft.DoubleFFT_1D;
import org.lonefibre.analysis.conditioning.ConditionedSignal;

/**
 * Separates shapes that overlap: the shapes that, placed at their arrivals, explain all discharges
 * best. At each frequency this is a small linear problem (a placed shape is its spectrum times a
 * phase); what the variation of the intervals cannot separate stays as it was (a ridge towards the
 * shapes known before, weighted by the noise against a small share of the largest shape).
 */
final class ShapeSeparator {

  private static final int MOST_DISCHARGES = 200;
  private static final double PRIOR_SHARE = 0.05;
  private static final double OUTLIER = 20;

  private final PotentialSettings settings;
  private final ConditionedSignal signal;
  private final TrackedSite site;
  private final WindowReader windows;

  ShapeSeparator(
      PotentialSettings settings,
      ConditionedSignal signal,
      TrackedSite site,
      WindowReader windows) {
    this.settings = settings;
    this.signal = signal;
    this.site = site;
    this.windows = windows;
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

  /** Better shapes; arrivals stay. */
  void separate(UnitTrack unit, int unitIndex) {
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
    DoubleFFT_1D transform = new DoubleFFT_1D(size);
    double[][] spectra = new double[chosen.length][];
    double[][] places = new double[chosen.length][];
    for (int i = 0; i < chosen.length; i++) {
      int d = chosen[i];
      long start = (long) Math.floor(unit.reference[d] + earliest) - margin;
      double[] window = window(unit, unitIndex, d, start, size);
      transform.realForward(window);
      spectra[i] = window;
      places[i] = new double[unit.potentials];
      for (int p = 0; p < unit.potentials; p++) {
        places[i][p] = unit.arrival[d][p] - start - before;
      }
    }
    double[][] known = known(unit, transform, size);
    solve(unit, chosen, spectra, places, known, size);
    for (int p = 0; p < unit.potentials; p++) {
      transform.realInverse(known[p], true);
      double[] shape = Arrays.copyOf(known[p], length);
      ShapeEnds.fade(shape, signal.timeBase());
      unit.shape[p] = new PotentialShape(shape, before);
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
    double usual =
        n == 0 ? 0 : org.lonefibre.signal.robust.RobustStatistics.median(Arrays.copyOf(misfit, n));
    int[] kept = new int[n];
    int k = 0;
    for (int i = 0; i < n; i++) {
      if (misfit[i] <= OUTLIER * usual) {
        kept[k++] = all[i];
      }
    }
    return Arrays.copyOf(kept, k);
  }

  private static double[][] known(UnitTrack unit, DoubleFFT_1D transform, int size) {
    double[][] known = new double[unit.potentials][];
    for (int p = 0; p < unit.potentials; p++) {
      PotentialShape first = unit.before[p];
      known[p] = Arrays.copyOf((first == null ? unit.shape[p] : first).samples(), size);
      transform.realForward(known[p]);
    }
    return known;
  }

  /** Solves every frequency in place: {@code known} holds the old spectra, then the new ones. */
  private void solve(
      UnitTrack unit,
      int[] chosen,
      double[][] spectra,
      double[][] places,
      double[][] known,
      int size) {
    int n = unit.potentials;
    double largest = 0;
    for (PotentialShape shape : unit.shape) {
      largest = Math.max(largest, shape.peakToPeakUv());
    }
    double ratio = signal.noiseUv() / (PRIOR_SHARE * Math.max(largest, 1e-9));
    double ridge = ratio * ratio;
    for (int bin = 1; bin < size / 2; bin++) {
      ComplexSystem system = new ComplexSystem(n);
      double omega = 2 * Math.PI * bin / size;
      for (int p = 0; p < n; p++) {
        system.addToDiagonal(p, ridge);
        system.addToRight(p, ridge * known[p][2 * bin], ridge * known[p][2 * bin + 1]);
      }
      for (int i = 0; i < chosen.length; i++) {
        for (int p = 0; p < n; p++) {
          boolean there = unit.isPresent(chosen[i], p);
          double scale = there ? unit.scale[chosen[i]][p] : 0;
          double angle = -omega * places[i][p];
          system.setPhasor(p, scale * Math.cos(angle), scale * Math.sin(angle));
        }
        system.addEquation(spectra[i][2 * bin], spectra[i][2 * bin + 1]);
      }
      system.solve();
      for (int p = 0; p < n; p++) {
        known[p][2 * bin] = system.real(p);
        known[p][2 * bin + 1] = system.imaginary(p);
      }
    }
    for (int p = 0; p < n; p++) {
      known[p][0] = 0;
      known[p][1] = 0;
    }
  }
}
