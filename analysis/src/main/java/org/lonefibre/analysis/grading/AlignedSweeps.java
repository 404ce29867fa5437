package org.lonefibre.analysis.grading;

import java.util.ArrayList;
import java.util.List;
import org.lonefibre.analysis.conditioning.ConditionedSignal;
import org.lonefibre.analysis.potential.Presence;
import org.lonefibre.analysis.potential.TrackedPotential;
import org.lonefibre.analysis.potential.TrackedUnit;
import org.lonefibre.signal.interpolation.FractionalDelay;
import org.lonefibre.signal.recording.Segment;

/**
 * Sweeps of one potential aligned on its arrival: as conditioned for timing, all other potentials
 * taken out, and as an amplifier would have filtered them.
 */
final class AlignedSweeps {

  private static final int MOST_SWEEPS = 120;
  private static final double REACH_US = 10_000;

  final int origin;
  final int length;
  final List<double[]> zeroPhase = new ArrayList<>();
  final List<double[]> causal = new ArrayList<>();
  final List<Integer> discharge = new ArrayList<>();

  AlignedSweeps(
      ConditionedSignal signal,
      List<TrackedUnit> units,
      TrackedUnit unit,
      TrackedPotential potential,
      double beforeUs,
      double afterUs) {
    origin = (int) Math.ceil(signal.timeBase().lengthSamples(beforeUs));
    length = origin + (int) Math.ceil(signal.timeBase().lengthSamples(afterUs)) + 1;
    int present = potential.presentCount();
    int step = Math.max(1, present / MOST_SWEEPS);
    FractionalDelay delay = new FractionalDelay();
    int margin = FractionalDelay.HALF_TAPS;
    double[] window = new double[length + 2 * margin + 2];
    double reach = signal.timeBase().lengthSamples(REACH_US);
    int seen = 0;
    for (int d = 0; d < unit.discharges(); d++) {
      if (potential.presence(d) != Presence.PRESENT || seen++ % step != 0) {
        continue;
      }
      double from = potential.arrivalSamples(d) - origin;
      long start = (long) Math.floor(from) - margin;
      Segment within = signal.segments().get(unit.segment(d));
      if (start < within.firstSample() || start + window.length > within.endSample()) {
        continue;
      }
      discharge.add(d);
      signal.forTiming().read(start, window, 0, window.length);
      takeOutOthers(units, potential, start, window, reach);
      double[] row = new double[length];
      delay.read(window, from - start, row, length);
      zeroPhase.add(row);
      signal.readCausal(start, window, 0, window.length);
      double[] twin = new double[length];
      delay.read(window, from - start, twin, length);
      causal.add(twin);
    }
  }

  private static void takeOutOthers(
      List<TrackedUnit> units,
      TrackedPotential potential,
      long start,
      double[] window,
      double reach) {
    for (TrackedUnit unit : units) {
      int d = unit.firstAtOrAfter(start - reach);
      for (; d < unit.discharges() && unit.referenceSamples(d) < start + reach; d++) {
        for (TrackedPotential other : unit.potentials()) {
          if (other != potential && other.presence(d) == Presence.PRESENT) {
            other.takeOut(window, start, d);
          }
        }
      }
    }
  }

  /** Point by point median over the sweeps. */
  static double[] median(List<double[]> rows) {
    double[] median = new double[rows.get(0).length];
    double[] column = new double[rows.size()];
    for (int k = 0; k < median.length; k++) {
      for (int i = 0; i < column.length; i++) {
        column[i] = rows.get(i)[k];
      }
      median[k] = org.lonefibre.signal.robust.RobustStatistics.median(column);
    }
    return median;
  }
}
