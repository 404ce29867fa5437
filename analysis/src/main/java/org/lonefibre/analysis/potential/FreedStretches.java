package org.lonefibre.analysis.potential;

import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;
import org.lonefibre.analysis.conditioning.ConditionedSignal;
import org.lonefibre.analysis.potential.PatternMisfit.Usual;
import org.lonefibre.signal.robust.RobustStatistics;

/**
 * The signal around a discharge as it would be if only that discharge were in it: any unit can be
 * asked how well it would explain what is there.
 *
 * <ul>
 *   <li>Thread rule: one thread at a time.
 * </ul>
 */
final class FreedStretches {

  private static final int ASKED = 50;

  private final TrackedSite site;
  private final WindowReader windows;
  private final SweepFitter fitter;
  private final PatternMisfit misfit;

  FreedStretches(
      ConditionedSignal signal, TrackedSite site, WindowReader windows, SweepFitter fitter) {
    this.site = site;
    this.windows = windows;
    this.fitter = fitter;
    this.misfit = new PatternMisfit(signal, fitter);
  }

  /** The stretch of a discharge, wide enough for every unit; all other discharges taken out. */
  Stretch around(List<UnitTrack> units, int u, int d) {
    UnitTrack unit = units.get(u);
    double span = 0;
    double margin = 0;
    for (UnitTrack one : units) {
      span = Math.max(span, latest(one) - earliest(one));
      for (int p = 0; p < one.potentials; p++) {
        margin = Math.max(margin, one.shape[p].length() + fitter.range(one, p));
      }
    }
    double from = unit.reference[d] + earliest(unit) - span - margin;
    double to = unit.reference[d] + latest(unit) + span + margin;
    long start = (long) Math.floor(from);
    double[] window = new double[(int) Math.ceil(to - from)];
    windows.read(unit.segment[d], start, window);
    site.takeOut(window, start, u);
    int e = unit.firstAtOrAfter(from - margin - latest(unit));
    for (; e < unit.discharges && unit.reference[e] + earliest(unit) < to + margin; e++) {
      for (int p = 0; e != d && p < unit.potentials; p++) {
        if (unit.isPresent(e, p)) {
          unit.shape[p].addTo(window, unit.arrival[e][p] - start, -unit.scale[e][p]);
        }
      }
    }
    return new Stretch(window, start);
  }

  /** What a unit usually leaves of its own discharges. */
  double typical(List<UnitTrack> units, Usual usual, int u) {
    UnitTrack unit = units.get(u);
    int step = Math.max(1, unit.discharges / ASKED);
    return RobustStatistics.median(
        IntStream.range(0, unit.discharges)
            .filter(d -> d % step == 0)
            .mapToDouble(d -> around(units, u, d).misfit(usual, unit.reference[d]))
            .toArray());
  }

  /** The signal in which any unit could have fired instead. */
  final class Stretch {

    private final double[] window;
    private final long start;

    private Stretch(double[] window, long start) {
      this.window = window;
      this.start = start;
    }

    /** What a unit that fired from a place would leave. */
    double misfit(Usual usual, double reference) {
      return misfit.of(usual, window, start, reference);
    }
  }

  private static double earliest(UnitTrack unit) {
    return Arrays.stream(unit.lag).min().orElse(0);
  }

  private static double latest(UnitTrack unit) {
    return Arrays.stream(unit.lag).max().orElse(0);
  }
}
