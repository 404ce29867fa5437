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

  /** Times the noise's variance: what other units leave is more than noise. */
  private static final double LEAST_GAIN = 30;

  /** Times the variance that noise gives a size, where one unit is alone. */
  private static final double LEAST_ALONE = 12;

  private static final double AROUND_US = 200;

  /** Where odd sizes and places become usual ones, little more needs to be explained by them. */
  private static final double ODD = 16;

  private static final double USUAL = 6;
  private static final double MOST_ODD = 40;
  private static final double SIZE_SPREAD = 0.08;
  private static final double LEAST_SPREAD_US = 80;
  private static final double THERE = 0.5;

  private final ConditionedSignal signal;
  private final TrackedSite site;
  private final WindowReader windows;
  private final double around;
  private final double leastSpread;

  SlipSearch(ConditionedSignal signal, TrackedSite site, WindowReader windows) {
    this.signal = signal;
    this.site = site;
    this.windows = windows;
    this.around = signal.timeBase().lengthSamples(AROUND_US);
    this.leastSpread = signal.timeBase().lengthSamples(LEAST_SPREAD_US);
  }

  /**
   * Moves a discharge if it slipped.
   *
   * @param usual size of each potential about then
   * @param error standard error that noise gives a size
   */
  void correct(UnitTrack unit, int unitIndex, int d, int leader, double[] usual, double[] error) {
    if (unit.potentials < 2 || isComplete(unit, d, usual)) {
      return;
    }
    double earliest = Arrays.stream(unit.lag).min().orElse(0);
    double latest = Arrays.stream(unit.lag).max().orElse(0);
    int longest = Arrays.stream(unit.shape).mapToInt(PotentialShape::length).max().orElse(0);
    double span = latest - earliest + longest + around + 2;
    long start = (long) Math.floor(unit.reference[d] + earliest - span);
    double[] window = new double[(int) Math.ceil(latest - earliest + 2 * span)];
    windows.read(unit.segment[d], start, window);
    site.takeOut(window, start, unitIndex);
    Laid here = laid(unit, window, unit.reference[d] - start, usual);
    Laid best = here;
    double move = 0;
    for (int q = 0; q < unit.potentials; q++) {
      double shift = unit.lag[leader] - unit.lag[q];
      if (Math.abs(shift) > around) {
        Laid there = laid(unit, window, unit.reference[d] + shift - start, usual);
        if (there.explained > best.explained) {
          best = there;
          move = shift;
        }
      }
    }
    double smallest = Double.POSITIVE_INFINITY;
    double ofSize = 0;
    for (int p = 0; p < unit.potentials; p++) {
      double energy = unit.shape[p].energy();
      smallest = Math.min(smallest, energy * usual[p] * usual[p]);
      ofSize = Math.max(ofSize, energy * error[p] * error[p]);
    }
    double least = LEAST_GAIN * signal.noiseUv() * signal.noiseUv();
    if (site.holdsOneUnit()) {
      least = Math.min(least, LEAST_ALONE * ofSize);
    }
    double share = here.oddity > ODD && best.oddity < USUAL ? 0 : MOVING_SHARE;
    if (move != 0 && best.explained - here.explained > Math.max(share * smallest, least)) {
      unit.reference[d] += move;
      for (int p = 0; p < unit.potentials; p++) {
        unit.arrival[d][p] = best.places[p] + start;
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

  /**
   * The pattern of a unit as it is laid on a window.
   *
   * @param explained how much of the window's energy it takes away
   * @param oddity how far sizes and places are from the usual ones: a sum of squared deviations
   * @param places where the potentials lie
   */
  private record Laid(double explained, double oddity, double[] places) {}

  private Laid laid(UnitTrack unit, double[] window, double reference, double[] usual) {
    double[] places = new double[unit.potentials];
    double explained = 0;
    double oddity = 0;
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
      double energy = Math.max(unit.shape[p].energy(), 1e-12);
      double scale = Math.min(LARGEST * usual[p], most / energy);
      explained += scale * (2 * most - scale * energy);
      if (scale > THERE * usual[p]) {
        oddity += odd((scale / usual[p] - 1) / SIZE_SPREAD);
        oddity += odd((places[p] - centre) / Math.max(leastSpread, unit.spread[p]));
      }
    }
    return new Laid(explained, oddity, places);
  }

  private static double odd(double deviation) {
    return Math.min(MOST_ODD, deviation * deviation);
  }
}
