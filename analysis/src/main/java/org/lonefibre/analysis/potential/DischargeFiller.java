package org.lonefibre.analysis.potential;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.lonefibre.analysis.conditioning.ConditionedSignal;
import org.lonefibre.signal.robust.RobustStatistics;

/**
 * Finds discharges that were hidden under another unit: where a unit pauses for two or more of its
 * usual intervals, its largest potential is looked for in what the other units leave.
 */
final class DischargeFiller {

  private static final double LONG = 1.5;
  private static final int NEIGHBOURS = 8;
  private static final double SMALLEST_SIZE = 0.6;
  private static final double LARGEST_SIZE = 1.5;
  private static final double SMALLEST_SNR = 8;

  private final ConditionedSignal signal;
  private final TrackedSite site;
  private final WindowReader windows;

  DischargeFiller(ConditionedSignal signal, TrackedSite site, WindowReader windows) {
    this.signal = signal;
    this.site = site;
    this.windows = windows;
  }

  /** The unit with the hidden discharges: itself if there are none. */
  UnitTrack fill(UnitTrack unit, int unitIndex) {
    int leader = unit.leader();
    PotentialShape shape = unit.shape[leader];
    if (shape == null
        || unit.discharges < 2 * NEIGHBOURS
        || shape.peakToPeakUv() < SMALLEST_SNR * signal.noiseUv()) {
      return unit;
    }
    List<UnitTrack.Place> found = new ArrayList<>();
    double[] intervals = new double[unit.discharges - 1];
    for (int d = 0; d + 1 < unit.discharges; d++) {
      intervals[d] = unit.reference[d + 1] - unit.reference[d];
    }
    for (int d = 0; d + 1 < unit.discharges; d++) {
      if (unit.segment[d] != unit.segment[d + 1]) {
        continue;
      }
      double usual = usual(intervals, d);
      if (intervals[d] > LONG * usual && intervals[d] < 6 * usual) {
        search(unit, unitIndex, leader, d, usual, found);
      }
    }
    return found.isEmpty() ? unit : unit.withMore(found);
  }

  private static double usual(double[] intervals, int d) {
    int from = Math.max(0, d - NEIGHBOURS);
    int to = Math.min(intervals.length, d + NEIGHBOURS + 1);
    return RobustStatistics.median(Arrays.copyOfRange(intervals, from, to));
  }

  private void search(
      UnitTrack unit, int unitIndex, int leader, int d, double usual, List<UnitTrack.Place> found) {
    PotentialShape shape = unit.shape[leader];
    double from = unit.reference[d] + 0.6 * usual + unit.lag[leader];
    double to = unit.reference[d + 1] - 0.6 * usual + unit.lag[leader];
    int margin = shape.length();
    long start = (long) Math.floor(from) - margin;
    double[] window = new double[(int) (to - from) + 2 * margin + 2];
    windows.read(unit.segment[d], start, window);
    site.takeOut(window, start, unitIndex);
    double[] likeness = shape.projectFrom(window, from - start, (int) (to - from) + 1);
    for (int k = 0; k < likeness.length; k++) {
      likeness[k] /= shape.energy();
    }
    while (true) {
      int best = -1;
      for (int k = 0; k < likeness.length; k++) {
        if (likeness[k] >= SMALLEST_SIZE && (best < 0 || likeness[k] > likeness[best])) {
          best = k;
        }
      }
      if (best < 0 || likeness[best] > LARGEST_SIZE) {
        return;
      }
      found.add(new UnitTrack.Place(from + best - unit.lag[leader], unit.segment[d]));
      int clear = Math.max(1, (int) (0.6 * usual));
      Arrays.fill(likeness, Math.max(0, best - clear), Math.min(likeness.length, best + clear), 0);
    }
  }
}
