package org.lonefibre.analysis.grading;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.conditioning.ConditionedSignal;
import org.lonefibre.analysis.potential.Presence;
import org.lonefibre.analysis.potential.TrackedPotential;
import org.lonefibre.analysis.potential.TrackedUnit;
import org.lonefibre.signal.interpolation.FractionalDelay;
import org.lonefibre.signal.recording.Segment;

/**
 * Sweeps of one potential aligned on its arrival: as conditioned for timing, all other potentials
 * taken out, and as an amplifier would have filtered them; with the baseline beside them.
 */
final class AlignedSweeps {

  private static final int MOST_SWEEPS = 120;
  private static final double REACH_US = 10_000;
  private static final double BASELINE_BEFORE_US = 2500;
  private static final double BASELINE_AFTER_US = 4000;
  private static final int BASELINES_EACH_SIDE = 2;

  final int origin;
  final int length;
  final List<double[]> zeroPhase = new ArrayList<>();
  final List<double[]> causal = new ArrayList<>();
  final List<Integer> discharge = new ArrayList<>();

  /** Stretches beside the potentials of the same discharges, all potentials taken out. */
  final List<double[]> baseline = new ArrayList<>();

  /** What each other potential of the unit adds there when it widens, per unit of its width. */
  final List<double[]> widenings = new ArrayList<>();

  private final List<Double> relativeSamples = new ArrayList<>();

  AlignedSweeps(
      ConditionedSignal signal,
      List<TrackedUnit> units,
      TrackedUnit unit,
      TrackedPotential potential,
      double beforeUs,
      double afterUs) {
    this(signal, units, unit, potential, beforeUs, afterUs, List.of(potential), false);
  }

  /** Sweeps of a potential with its parts left in; those in which it cannot be judged as well. */
  static AlignedSweeps withParts(
      ConditionedSignal signal,
      List<TrackedUnit> units,
      TrackedUnit unit,
      TrackedPotential potential,
      double beforeUs,
      double afterUs,
      List<TrackedPotential> parts) {
    return new AlignedSweeps(signal, units, unit, potential, beforeUs, afterUs, parts, true);
  }

  private AlignedSweeps(
      ConditionedSignal signal,
      List<TrackedUnit> units,
      TrackedUnit unit,
      TrackedPotential potential,
      double beforeUs,
      double afterUs,
      List<TrackedPotential> kept,
      boolean uncertainToo) {
    origin = (int) Math.ceil(signal.timeBase().lengthSamples(beforeUs));
    length = origin + (int) Math.ceil(signal.timeBase().lengthSamples(afterUs)) + 1;
    int present = potential.presentCount();
    int step = Math.max(1, present / MOST_SWEEPS);
    FractionalDelay delay = new FractionalDelay();
    int margin = FractionalDelay.HALF_TAPS;
    double[] window = new double[length + 2 * margin + 2];
    double reach = signal.timeBase().lengthSamples(REACH_US);
    TrackedPotential beside = largestBeside(unit, potential);
    List<TrackedPotential> unwidened = new ArrayList<>(unit.potentials());
    unwidened.removeAll(kept);
    int seen = 0;
    for (int d = 0; d < unit.discharges(); d++) {
      Presence presence = potential.presence(d);
      boolean isWanted =
          presence == Presence.PRESENT || uncertainToo && presence == Presence.UNCERTAIN;
      if (!isWanted || seen++ % step != 0) {
        continue;
      }
      double from =
          (presence == Presence.PRESENT
                  ? potential.arrivalSamples(d)
                  : unit.referenceSamples(d) + potential.lagSamples())
              - origin;
      long start = (long) Math.floor(from) - margin;
      Segment within = signal.segments().get(unit.segment(d));
      if (start < within.firstSample()
          || start + window.length > within.endSample()
          || uncertainToo && isUnsettled(units, unit, start, start + window.length, reach)) {
        continue;
      }
      discharge.add(d);
      relativeSamples.add(
          beside == null || beside.presence(d) != Presence.PRESENT || presence != Presence.PRESENT
              ? Double.NaN
              : potential.arrivalSamples(d) - beside.arrivalSamples(d));
      signal.forTiming().read(start, window, 0, window.length);
      takeOutOthers(units, kept, start, window, reach);
      double[] row = new double[length];
      delay.read(window, from - start, row, length);
      zeroPhase.add(row);
      signal.readCausal(start, window, 0, window.length);
      double[] twin = new double[length];
      delay.read(window, from - start, twin, length);
      causal.add(twin);
      readBaseline(signal, units, unit, d, within, reach);
      addWidenings(unwidened, d, start + margin);
    }
  }

  /**
   * Arrival in each sweep against another potential of the unit, the largest; NaN where that is not
   * there.
   */
  double[] relativeSamples() {
    return relativeSamples.stream().mapToDouble(Double::doubleValue).toArray();
  }

  private static @Nullable TrackedPotential largestBeside(
      TrackedUnit unit, TrackedPotential potential) {
    return unit.potentials().stream()
        .filter(other -> other != potential)
        .max(
            Comparator.comparingDouble(
                other -> other.presentCount() * other.shape().peakToPeakUv()))
        .orElse(null);
  }

  private void readBaseline(
      ConditionedSignal signal,
      List<TrackedUnit> units,
      TrackedUnit unit,
      int d,
      Segment within,
      double reach) {
    double earliest = unit.referenceSamples(d);
    double latest = earliest;
    for (TrackedPotential one : unit.potentials()) {
      earliest = Math.min(earliest, unit.referenceSamples(d) + one.lagSamples());
      latest = Math.max(latest, unit.referenceSamples(d) + one.lagSamples());
    }
    double before = earliest - signal.timeBase().lengthSamples(BASELINE_BEFORE_US);
    double after = latest + signal.timeBase().lengthSamples(BASELINE_AFTER_US);
    for (int w = 0; w < BASELINES_EACH_SIDE; w++) {
      for (double from : new double[] {before - (w + 1) * length, after + w * length}) {
        long start = (long) Math.floor(from);
        if (start >= within.firstSample() && start + length <= within.endSample()) {
          double[] row = new double[length];
          signal.forTiming().read(start, row, 0, length);
          takeOutOthers(units, List.of(), start, row, reach);
          baseline.add(row);
        }
      }
    }
  }

  /** What those add that are present here; they are not asked again. */
  private void addWidenings(List<TrackedPotential> unwidened, int d, long start) {
    for (TrackedPotential other : List.copyOf(unwidened)) {
      if (other.presence(d) == Presence.PRESENT) {
        double[] wave = new double[length];
        other.takeOut(wave, start, d);
        widenings.add(Wave.widening(Wave.slope(wave), other.arrivalSamples(d) - start));
        unwidened.remove(other);
      }
    }
  }

  /** Whether a potential of another unit may lie there that was not placed: it is not taken out. */
  private static boolean isUnsettled(
      List<TrackedUnit> units, TrackedUnit own, double from, double to, double reach) {
    for (TrackedUnit unit : units) {
      int d = unit == own ? unit.discharges() : unit.firstAtOrAfter(from - reach);
      for (; d < unit.discharges() && unit.referenceSamples(d) < to + reach; d++) {
        for (TrackedPotential other : unit.potentials()) {
          double place = unit.referenceSamples(d) + other.lagSamples();
          if (other.presence(d) == Presence.UNCERTAIN && place > from && place < to) {
            return true;
          }
        }
      }
    }
    return false;
  }

  private static void takeOutOthers(
      List<TrackedUnit> units,
      List<TrackedPotential> kept,
      long start,
      double[] window,
      double reach) {
    for (TrackedUnit unit : units) {
      int d = unit.firstAtOrAfter(start - reach);
      for (; d < unit.discharges() && unit.referenceSamples(d) < start + reach; d++) {
        for (TrackedPotential other : unit.potentials()) {
          if (other.presence(d) == Presence.PRESENT && !kept.contains(other)) {
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
