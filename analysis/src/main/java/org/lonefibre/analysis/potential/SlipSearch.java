package org.lonefibre.analysis.potential;

import java.util.Arrays;
import org.lonefibre.analysis.conditioning.ConditionedSignal;

/**
 * Looks for discharges that were taken up at the wrong potential: where one is missing, the whole
 * pattern is laid so that what was found is another of the unit, and moved there if that explains
 * far more of the signal. Potentials of like shape in strong noise make this happen.
 */
final class SlipSearch {

  private static final double COMPLETE = 0.7;
  private static final double LARGEST = 1.25;
  private static final double MOVING_SHARE = 0.5;
  private static final double LEAST_GAIN = 30;
  private static final double AROUND_US = 200;

  private final ConditionedSignal signal;
  private final TrackedSite site;
  private final WindowReader windows;

  SlipSearch(ConditionedSignal signal, TrackedSite site, WindowReader windows) {
    this.signal = signal;
    this.site = site;
    this.windows = windows;
  }

  /** Moves a discharge if it slipped. */
  void correct(UnitTrack unit, int unitIndex, int d, int leader, double[] usual) {
    if (unit.potentials < 2 || isComplete(unit, d, usual)) {
      return;
    }
    double earliest = Arrays.stream(unit.lag).min().orElse(0);
    double latest = Arrays.stream(unit.lag).max().orElse(0);
    double around = signal.timeBase().lengthSamples(AROUND_US);
    int longest = Arrays.stream(unit.shape).mapToInt(PotentialShape::length).max().orElse(0);
    double span = latest - earliest + longest + around + 2;
    long start = (long) Math.floor(unit.reference[d] + earliest - span);
    double[] window = new double[(int) Math.ceil(latest - earliest + 2 * span)];
    windows.read(unit.segment[d], start, window);
    site.takeOut(window, start, unitIndex);
    double[] places = new double[unit.potentials];
    double here = explained(unit, window, unit.reference[d] - start, around, usual, places);
    double best = here;
    double move = 0;
    for (int q = 0; q < unit.potentials; q++) {
      double shift = unit.lag[leader] - unit.lag[q];
      if (Math.abs(shift) > around) {
        double there =
            explained(unit, window, unit.reference[d] + shift - start, around, usual, places);
        if (there > best) {
          best = there;
          move = shift;
        }
      }
    }
    double smallest = Double.POSITIVE_INFINITY;
    for (int p = 0; p < unit.potentials; p++) {
      smallest = Math.min(smallest, unit.shape[p].energy() * usual[p] * usual[p]);
    }
    double noise = signal.noiseUv() * signal.noiseUv();
    if (move != 0 && best - here > Math.max(MOVING_SHARE * smallest, LEAST_GAIN * noise)) {
      unit.reference[d] += move;
      explained(unit, window, unit.reference[d] - start, around, usual, places);
      for (int p = 0; p < unit.potentials; p++) {
        unit.arrival[d][p] = places[p] + start;
        unit.scale[d][p] = usual[p];
        unit.presence[d][p] = Presence.PRESENT;
      }
    }
  }

  private static boolean isComplete(UnitTrack unit, int d, double[] usual) {
    for (int p = 0; p < unit.potentials; p++) {
      if (!unit.isPresent(d, p) || unit.scale[d][p] < COMPLETE * usual[p]) {
        return false;
      }
    }
    return true;
  }

  /** How much of the window's energy the pattern takes away at a reference, and where it lies. */
  private static double explained(
      UnitTrack unit,
      double[] window,
      double reference,
      double around,
      double[] usual,
      double[] places) {
    double sum = 0;
    for (int p = 0; p < unit.potentials; p++) {
      double centre = reference + unit.lag[p];
      double most = 0;
      places[p] = centre;
      double[] likeness =
          unit.shape[p].projectFrom(window, centre - around, (int) (2 * around) + 1);
      for (int k = 0; k < likeness.length; k++) {
        if (likeness[k] > most) {
          most = likeness[k];
          places[p] = centre - around + k;
        }
      }
      double energy = unit.shape[p].energy();
      double scale = Math.min(LARGEST * usual[p], most / Math.max(energy, 1e-12));
      sum += scale * (2 * most - scale * energy);
    }
    return sum;
  }
}
