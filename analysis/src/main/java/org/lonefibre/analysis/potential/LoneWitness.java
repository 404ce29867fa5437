package org.lonefibre.analysis.potential;

import java.util.List;
import org.lonefibre.analysis.conditioning.ConditionedSignal;

/**
 * Asks once more where a single spike is all that says that a unit fired and others of its
 * potentials are called absent for it. Nothing is called absent where the spike is not well
 * explained, or where another potential explains it about as well and could have been there: one of
 * a unit that may have fired then, or another of the same unit whose partner lies hidden, or is to
 * be seen, where it would then be.
 */
final class LoneWitness {

  private static final double ABOUT_AS_WELL = 1.5;
  private static final double NO_WORSE_BY = 60;
  private static final double UNEXPLAINED_SHARE = 0.3;
  private static final double EXPLAINED_SHARE = 0.5;
  private static final double HIDDEN_SHARE = 0.6;
  private static final double NEAR_US = 500;
  private static final double THERE_RATIO = 0.5;

  private final TrackedSite site;
  private final WindowReader windows;
  private final SweepFitter fitter;
  private final double noiseUv;
  private final double near;

  LoneWitness(
      ConditionedSignal signal, TrackedSite site, WindowReader windows, SweepFitter fitter) {
    this.noiseUv = signal.noiseUv();
    this.site = site;
    this.windows = windows;
    this.fitter = fitter;
    this.near = signal.timeBase().lengthSamples(NEAR_US);
  }

  /** Doubts absences in place. */
  void question(List<UnitTrack> units) {
    for (int u = 0; u < units.size(); u++) {
      UnitTrack unit = units.get(u);
      double[][] usual = UsualSizes.of(unit);
      for (int d = 0; d < unit.discharges; d++) {
        int only = only(unit, d);
        if (only >= 0 && isDoubtful(units, u, d, only, usual[d][only])) {
          for (int p = 0; p < unit.potentials; p++) {
            if (p != only) {
              unit.presence[d][p] = Presence.UNCERTAIN;
            }
          }
        }
      }
    }
  }

  /** The only potential present in a discharge in which others are called absent, or -1. */
  private static int only(UnitTrack unit, int d) {
    int only = -1;
    boolean absent = false;
    for (int p = 0; p < unit.potentials; p++) {
      absent |= unit.presence[d][p] == Presence.ABSENT;
      if (unit.isPresent(d, p)) {
        if (only >= 0) {
          return -1;
        }
        only = p;
      }
    }
    return absent ? only : -1;
  }

  private boolean isDoubtful(List<UnitTrack> units, int u, int d, int only, double usual) {
    UnitTrack unit = units.get(u);
    PotentialShape shape = unit.shape[only];
    int margin = shape.length();
    long start = (long) Math.floor(unit.arrival[d][only]) - margin;
    double[] window = new double[2 * margin];
    windows.read(unit.segment[d], start, window);
    site.takeOut(window, start, u);
    double position = unit.arrival[d][only] - start;
    double own = SpikeMisfit.of(shape, usual, window, position, noiseUv);
    double energy = usual * usual * shape.energy() / (noiseUv * noiseUv);
    return own - window.length > UNEXPLAINED_SHARE * energy
        || SpikeMisfit.energy(window, noiseUv) - own < EXPLAINED_SHARE * energy
        || hasRival(
            units, u, d, only, window, position, Math.max(ABOUT_AS_WELL * own, own + NO_WORSE_BY));
  }

  /** Whether another potential could have been there and leaves no more than is tolerated. */
  private boolean hasRival(
      List<UnitTrack> units,
      int u,
      int d,
      int only,
      double[] window,
      double position,
      double tolerated) {
    UnitTrack unit = units.get(u);
    double at = unit.arrival[d][only];
    for (int v = 0; v < units.size(); v++) {
      UnitTrack other = units.get(v);
      for (int q = 0; q < other.potentials; q++) {
        double reference = at - other.lag[q];
        boolean possible =
            v != u
                ? other.mayFireAt(reference)
                : q != only
                    && (isHidden(unit, u, only, reference) || isThere(unit, u, d, only, reference));
        if (possible && SpikeMisfit.of(other.shape[q], 1, window, position, noiseUv) < tolerated) {
          return true;
        }
      }
    }
    return false;
  }

  /** Whether the potential could not be seen if the unit had fired from this reference. */
  private boolean isHidden(UnitTrack unit, int u, int p, double reference) {
    double expected = reference + unit.lag[p];
    return site.largestForeignUv(expected - near, expected + near, u)
        > HIDDEN_SHARE * unit.shape[p].peakToPeakUv();
  }

  /** Whether something like the potential lies where it would be had the unit fired from here. */
  private boolean isThere(UnitTrack unit, int u, int d, int p, double reference) {
    PotentialShape shape = unit.shape[p];
    double range = fitter.range(unit, p);
    int margin = shape.length() + (int) Math.ceil(range);
    double expected = reference + unit.lag[p];
    long start = (long) Math.floor(expected) - margin;
    double[] window = new double[2 * margin];
    windows.read(unit.segment[d], start, window);
    site.takeOut(window, start, u);
    double at = fitter.scan(unit, p, window, expected - start);
    return shape.project(window, at) > THERE_RATIO * shape.energy();
  }
}
