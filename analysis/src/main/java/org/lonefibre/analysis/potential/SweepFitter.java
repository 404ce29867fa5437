package org.lonefibre.analysis.potential;

import java.util.Arrays;
import org.lonefibre.analysis.conditioning.ConditionedSignal;
import org.lonefibre.analysis.discharge.Discharges;
import org.lonefibre.signal.robust.RobustStatistics;

/**
 * Places the potentials of one unit in each of its discharges and judges their presence: by the
 * size that fits best against what noise gives, with what other units put there taken out first.
 */
final class SweepFitter {

  private static final double SIZE_SPREAD = 0.06;
  private static final double OVERSIZE = 0.3;
  private static final double FOREIGN_SHARE = 0.6;
  private static final double UNEXPLAINED_SHARE = 0.3;
  private static final double WORTH_A_FIT = 0.25;
  private static final double DISTURBED = 6;
  private static final double HARMFUL_US = 8;
  private static final double NEAR_US = 350;

  private final PotentialSettings settings;
  private final Stage stage;
  private final ConditionedSignal signal;
  private final Discharges discharges;
  private final TrackedSite site;
  private final WindowReader windows;
  private final SlipSearch slips;
  private final PlaceSearch places;
  private final double search;
  private final double near;
  private final double[] correlation;

  SweepFitter(
      PotentialSettings settings,
      Stage stage,
      ConditionedSignal signal,
      Discharges discharges,
      TrackedSite site,
      WindowReader windows) {
    this.settings = settings;
    this.stage = stage;
    this.signal = signal;
    this.discharges = discharges;
    this.site = site;
    this.windows = windows;
    this.slips = new SlipSearch(signal, site, windows);
    this.search = signal.timeBase().lengthSamples(settings.searchUs());
    this.places = new PlaceSearch(settings, signal.timeBase());
    this.near = signal.timeBase().lengthSamples(NEAR_US);
    this.correlation = signal.noiseAutocorrelation(settings.shapeSamples(signal.timeBase()));
  }

  /** Fits all discharges of a unit and brings its places and sizes up to date. */
  void fit(UnitTrack unit, int unitIndex) {
    fit(unit, unitIndex, 1);
  }

  /** As {@link #fit(UnitTrack, int)}, but only every so many discharges; the others stay. */
  void fit(UnitTrack unit, int unitIndex, int every) {
    double[][] usual = UsualSizes.of(unit);
    double[] error = scaleErrors(unit);
    JointFit joint = new JointFit(unit.shape.clone());
    int leader = unit.leader();
    double earliest = Arrays.stream(unit.lag).min().orElse(0);
    double latest = Arrays.stream(unit.lag).max().orElse(0);
    int longest = Arrays.stream(unit.shape).mapToInt(PotentialShape::length).max().orElse(0);
    int margin = longest + (int) Math.ceil(places.farthest()) + 2;
    double[] window = new double[(int) Math.ceil(latest - earliest) + 2 * margin];
    boolean spontaneous = discharges.origin() == Discharges.Origin.POTENTIALS;
    for (int d = 0; d < unit.discharges; d += every) {
      if (spontaneous) {
        slips.correct(unit, unitIndex, d, leader, usual[d], error);
      }
      long start = (long) Math.floor(unit.reference[d] + earliest) - margin;
      windows.read(unit.segment[d], start, window);
      site.takeOut(window, start, unitIndex);
      fitOne(unit, unitIndex, d, start, window, joint, leader, usual[d], error);
    }
    markDisturbed(unit, error);
    if (spontaneous) {
      UnsureAbsences.doubt(unit);
    }
    settle(unit, leader);
  }

  private void fitOne(
      UnitTrack unit,
      int unitIndex,
      int d,
      long start,
      double[] window,
      JointFit joint,
      int leader,
      double[] usual,
      double[] error) {
    joint.clear();
    for (int p = 0; p < unit.potentials; p++) {
      if (unit.isPresent(d, p)) {
        joint.start(p, unit.arrival[d][p] - start, usual[p]);
      }
    }
    joint.fit(window, signal.noiseUv());
    double anchor = anchor(unit, d, joint, leader, start);
    boolean again = false;
    double[] found = new double[unit.potentials];
    for (int p = 0; p < unit.potentials; p++) {
      double expected = anchor + unit.lag[p] - start;
      double range = range(unit, p);
      boolean fits =
          joint.isActive(p)
              && joint.scaleRatio(p) >= settings.presentRatio() * usual[p]
              && Math.abs(joint.positionSamples(p) - expected) <= range;
      double doubt = stage == Stage.APART ? error[p] : 0;
      if (!fits || doubt > PlaceSearch.IN_NOISE) {
        if (joint.isActive(p)) {
          unit.shape[p].addTo(joint.residual(), joint.positionSamples(p), joint.scaleRatio(p));
        }
        double best = places.likeliest(unit, p, joint.residual(), expected, doubt);
        found[p] = unit.shape[p].project(joint.residual(), best) / unit.shape[p].energy();
        if (fits
            && !places.isClearlyLikelier(
                unit,
                p,
                joint.residual(),
                expected,
                best,
                joint.positionSamples(p),
                usual[p],
                doubt)) {
          unit.shape[p].addTo(joint.residual(), joint.positionSamples(p), -joint.scaleRatio(p));
          continue;
        }
        if (found[p] > WORTH_A_FIT * usual[p]) {
          joint.start(p, best, usual[p]);
        } else if (joint.isActive(p)) {
          joint.drop(p);
        }
        again = true;
      }
    }
    if (again) {
      joint.fit(window, signal.noiseUv());
    }
    measureMisfit(unit, d, joint);
    for (int p = 0; p < unit.potentials; p++) {
      double ratio = joint.isActive(p) ? joint.scaleRatio(p) / usual[p] : found[p] / usual[p];
      unit.presence[d][p] = judge(unit, unitIndex, p, anchor + unit.lag[p], ratio, error[p]);
      if (joint.isActive(p)) {
        unit.arrival[d][p] = joint.positionSamples(p) + start;
        unit.scale[d][p] = joint.scaleRatio(p);
        unit.widening[d][p] = joint.widening(p);
      } else {
        unit.arrival[d][p] = anchor + unit.lag[p];
        unit.scale[d][p] = Math.max(0, found[p]);
        unit.widening[d][p] = 1;
      }
      double off = Math.abs(unit.arrival[d][p] - anchor - unit.lag[p]);
      if (unit.presence[d][p] == Presence.PRESENT && off > 1.2 * range(unit, p)) {
        unit.presence[d][p] = Presence.UNCERTAIN;
      }
    }
  }

  private void measureMisfit(UnitTrack unit, int d, JointFit joint) {
    for (int p = 0; p < unit.potentials; p++) {
      if (joint.isActive(p)) {
        unit.misfit[d][p] = misfit(joint.residual(), joint.positionSamples(p));
      }
    }
  }

  /** Mean square of what is left of a window around a position, over that of the noise. */
  double misfit(double[] left, double position) {
    int from = (int) Math.max(0, position - near);
    int to = (int) Math.min(left.length, position + 1.4 * near);
    double sum = 0;
    for (int k = from; k < to; k++) {
      sum += left[k] * left[k];
    }
    return sum / Math.max(1, to - from) / (signal.noiseUv() * signal.noiseUv());
  }

  /** How far an arrival may be moved by what the fit leaves around it, in samples. */
  double shift(UnitTrack unit, int potential, double scale, double misfit) {
    return shift(arrivalError(unit, potential), scale, misfit);
  }

  private double arrivalError(UnitTrack unit, int potential) {
    return unit.shape[potential].arrivalError(signal.noiseUv(), correlation);
  }

  private static double shift(double arrivalError, double scale, double misfit) {
    return arrivalError / Math.max(0.3, scale) * Math.sqrt(misfit);
  }

  /**
   * Discharges in which something else lies on a potential: what is left around it is far more than
   * usual, or it is far larger than usual. Its arrival cannot be trusted there.
   */
  private void markDisturbed(UnitTrack unit, double[] error) {
    double[][] usual = UsualSizes.of(unit);
    double harmful = signal.timeBase().lengthSamples(HARMFUL_US);
    for (int p = 0; p < unit.potentials; p++) {
      double[] seen = new double[unit.discharges];
      int n = 0;
      for (int d = 0; d < unit.discharges; d++) {
        if (unit.isPresent(d, p)) {
          seen[n++] = unit.misfit[d][p];
        }
      }
      if (n == 0) {
        continue;
      }
      double doubt = settings.certaintyRatio() * Math.hypot(error[p], SIZE_SPREAD);
      double largest = 1 + Math.max(OVERSIZE, doubt);
      double limit = DISTURBED * Math.max(1, RobustStatistics.median(Arrays.copyOf(seen, n)));
      double arrivalError = arrivalError(unit, p);
      for (int d = 0; d < unit.discharges; d++) {
        boolean buried =
            unit.misfit[d][p] > limit
                && shift(arrivalError, unit.scale[d][p], unit.misfit[d][p]) > harmful;
        if (unit.isPresent(d, p) && (buried || unit.scale[d][p] > largest * usual[d][p])) {
          unit.presence[d][p] = Presence.UNCERTAIN;
        }
      }
    }
  }

  /** Where lag 0 of the discharge lies, by the leader if it is there, else by the others. */
  private double anchor(UnitTrack unit, int d, JointFit joint, int leader, long start) {
    if (joint.isActive(leader) && joint.scaleRatio(leader) >= settings.presentRatio()) {
      return joint.positionSamples(leader) + start - unit.lag[leader];
    }
    double[] offsets = new double[unit.potentials];
    int n = 0;
    for (int p = 0; p < unit.potentials; p++) {
      if (joint.isActive(p)) {
        offsets[n++] = joint.positionSamples(p) + start - unit.lag[p];
      }
    }
    return n == 0 ? unit.reference[d] : RobustStatistics.median(Arrays.copyOf(offsets, n));
  }

  /** How far from its usual place a potential is looked for, in samples. */
  double range(UnitTrack unit, int potential) {
    return places.range(unit, potential);
  }

  /** Position, near where it should be, at which a window is most like the shape. */
  double scan(UnitTrack unit, int potential, double[] window, double expected) {
    return places.likeliest(unit, potential, window, expected, 0);
  }

  /**
   * Whether a potential is there.
   *
   * @param expected its place, in samples of the channel
   * @param ratio what is seen of its usual size
   * @param error standard error that noise gives it
   */
  Presence judge(
      UnitTrack unit, int unitIndex, int p, double expected, double ratio, double error) {
    if (ratio >= settings.presentRatio() && ratio > 3 * error) {
      return Presence.PRESENT;
    }
    double sure =
        Math.min(
            settings.absentRatio(), 1 - settings.certaintyRatio() * Math.hypot(error, SIZE_SPREAD));
    if (ratio >= sure) {
      return Presence.UNCERTAIN;
    }
    double size = unit.shape[p].peakToPeakUv();
    double reach = range(unit, p) + search;
    double foreign = site.largestForeignUv(expected - reach, expected + reach, unitIndex);
    double unexplained = discharges.largestUnexplainedUv(expected - reach, expected + reach);
    return foreign > FOREIGN_SHARE * size || unexplained > UNEXPLAINED_SHARE * size
        ? Presence.UNCERTAIN
        : Presence.ABSENT;
  }

  double[] scaleErrors(UnitTrack unit) {
    double[] error = new double[unit.potentials];
    for (int p = 0; p < unit.potentials; p++) {
      error[p] = unit.shape[p].scaleError(signal.noiseUv(), correlation);
    }
    return error;
  }

  /** New places, spreads and references. */
  private static void settle(UnitTrack unit, int leader) {
    for (int d = 0; d < unit.discharges; d++) {
      if (unit.isPresent(d, leader)) {
        unit.reference[d] = unit.arrival[d][leader] - unit.lag[leader];
      }
    }
    for (int p = 0; p < unit.potentials; p++) {
      double[] places = new double[unit.discharges];
      int n = 0;
      for (int d = 0; d < unit.discharges; d++) {
        if (unit.isPresent(d, p) && unit.isPresent(d, leader)) {
          places[n++] = unit.arrival[d][p] - unit.reference[d];
        }
      }
      if (n > 4) {
        double[] seen = Arrays.copyOf(places, n);
        unit.lag[p] = RobustStatistics.median(seen);
        unit.spread[p] = RobustStatistics.standardDeviation(seen);
      }
    }
  }
}
