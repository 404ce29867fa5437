package org.lonefibre.analysis.potential;

import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.stream.IntStream;
import org.lonefibre.analysis.conditioning.ConditionedSignal;

/**
 * Doubts what stands in a fit only because it was put there: a small potential placed on a large
 * one, whose size makes room for it, leaves no less of the signal than the large one alone. It is
 * there if it makes the signal clearly likelier than its distance from its usual place makes it
 * unlikely. If not, it may hide where it was placed, or is not there.
 *
 * <ul>
 *   <li>Thread rule: one thread at a time.
 * </ul>
 */
final class UnseenParts {

  /** What an overlap that widens the error of an arrival less holds is always seen. */
  private static final double HIDING = 1.3;

  /** A potential hides in one this much larger, no other. */
  private static final double COVERING = 2;

  private static final double NEAR_US = 400;

  /** Noise is coloured: what is left counts half of what it would if it were white. */
  private static final double COLOUR = 2;

  /** Twice the logarithm of how much likelier a potential must make the signal. */
  private static final double SEEN = 9;

  private static final double MOST_UNLIKELY = 40;
  private static final double SIZE_SPREAD = 0.08;
  private static final double LEAST_SPREAD_US = 80;

  /** So many spreads from its usual place a potential does not hide. */
  private static final double NOT_THERE = 4;

  private final TrackedSite site;
  private final WindowReader windows;
  private final SweepFitter fitter;
  private final double noiseUv;
  private final double near;
  private final double leastSpread;

  UnseenParts(
      ConditionedSignal signal, TrackedSite site, WindowReader windows, SweepFitter fitter) {
    this.site = site;
    this.windows = windows;
    this.fitter = fitter;
    this.noiseUv = signal.noiseUv();
    this.near = signal.timeBase().lengthSamples(NEAR_US);
    this.leastSpread = signal.timeBase().lengthSamples(LEAST_SPREAD_US);
  }

  /** Doubts or denies such presences, in place; the site must know the units as they are. */
  void doubt(List<UnitTrack> units) {
    for (int u = 0; u < units.size(); u++) {
      UnitTrack unit = units.get(u);
      double[][] usual = UsualSizes.of(unit);
      double[] error = fitter.scaleErrors(unit);
      for (int d = 0; d < unit.discharges; d++) {
        int[] covered = covered(unit, d);
        if (covered.length > 0) {
          doubt(unit, u, d, covered, usual[d], error);
        }
      }
    }
  }

  /** The potentials that a larger one may hide in a discharge, the smaller first. */
  private int[] covered(UnitTrack unit, int d) {
    return IntStream.range(0, unit.potentials)
        .filter(p -> unit.isPresent(d, p) && unit.widening[d][p] > HIDING && isCovered(unit, d, p))
        .boxed()
        .sorted(Comparator.comparingDouble(p -> unit.shape[p].energy()))
        .mapToInt(Integer::intValue)
        .toArray();
  }

  private boolean isCovered(UnitTrack unit, int d, int p) {
    return IntStream.range(0, unit.potentials)
        .filter(q -> unit.isPresent(d, q))
        .filter(q -> Math.abs(unit.arrival[d][q] - unit.arrival[d][p]) < near)
        .anyMatch(q -> unit.shape[q].peakToPeakUv() > COVERING * unit.shape[p].peakToPeakUv());
  }

  private void doubt(UnitTrack unit, int u, int d, int[] covered, double[] usual, double[] error) {
    double earliest = Arrays.stream(unit.arrival[d]).min().orElse(0);
    double latest = Arrays.stream(unit.arrival[d]).max().orElse(0);
    int margin = 2 * unit.shape[0].length();
    long start = (long) Math.floor(earliest) - margin;
    double[] window = new double[(int) Math.ceil(latest - earliest) + 2 * margin];
    windows.read(unit.segment[d], start, window);
    site.takeOut(window, start, u);
    JointFit joint = new JointFit(unit.shape.clone());
    for (int p = 0; p < unit.potentials; p++) {
      if (unit.isPresent(d, p)) {
        joint.start(p, unit.arrival[d][p] - start, usual[p]);
      }
    }
    joint.fit(window, noiseUv);
    for (int p : covered) {
      double position = joint.positionSamples(p);
      double with = othersCost(joint, usual, p);
      joint.drop(p);
      joint.fit(window, noiseUv);
      double place = unit.reference[d] + unit.lag[p];
      double spreads = (position + start - place) / Math.max(leastSpread, unit.spread[p]);
      if (othersCost(joint, usual, p) - with - oddity(spreads) >= SEEN) {
        joint.start(p, position, usual[p]);
        joint.fit(window, noiseUv);
      } else {
        double at = fitter.scan(unit, p, joint.residual(), place - start);
        double left = unit.shape[p].project(joint.residual(), at) / unit.shape[p].energy();
        boolean absent =
            Math.abs(spreads) > NOT_THERE
                && fitter.judge(unit, u, p, place, left / usual[p], error[p]) == Presence.ABSENT;
        unit.presence[d][p] = absent ? Presence.ABSENT : Presence.UNCERTAIN;
      }
    }
  }

  /** What is left, and how odd the sizes of all potentials but one are. */
  private double othersCost(JointFit joint, double[] usual, int but) {
    return SpikeMisfit.energy(joint.residual(), noiseUv) / COLOUR
        + IntStream.range(0, usual.length)
            .filter(q -> q != but && joint.isActive(q))
            .mapToDouble(q -> oddity((joint.scaleRatio(q) / usual[q] - 1) / SIZE_SPREAD))
            .sum();
  }

  private static double oddity(double deviation) {
    return Math.min(MOST_UNLIKELY, deviation * deviation);
  }
}
