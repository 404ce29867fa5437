package org.lonefibre.analysis;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.lonefibre.analysis.conditioning.ConditionedSignal;
import org.lonefibre.analysis.potential.Presence;
import org.lonefibre.analysis.potential.TrackedPotential;
import org.lonefibre.analysis.potential.TrackedUnit;
import org.lonefibre.signal.recording.Evidence;
import org.lonefibre.signal.recording.Finding;
import org.lonefibre.signal.recording.FindingCode;
import org.lonefibre.signal.recording.Segment;

/**
 * Looks for a second discharge within 2 to 12 ms of the first, sooner than a motor unit is
 * followed: the two largest potentials of the unit once more, at their usual distance and about
 * their usual size, where no other unit has a potential. One potential alone is taken for another
 * unit's.
 */
final class DoubletSearch {

  private static final double SOONEST_US = 2000;
  private static final double LATEST_US = 12_000;
  private static final double NEAR_US = 200;
  private static final double REACH_US = 10_000;
  private static final double LEAST_SHARE = 0.3;
  private static final double BEFORE_US = 250;
  private static final double AFTER_US = 350;
  private static final double SMALLEST = 0.5;
  private static final double LARGEST = 1.3;
  private static final double MOST_LEFT = 0.15;
  private static final int LEAST_DOUBLETS = 2;

  private final ConditionedSignal signal;
  private final List<TrackedUnit> units;

  /**
   * @param units all units of the site
   */
  DoubletSearch(ConditionedSignal signal, List<TrackedUnit> units) {
    this.signal = signal;
    this.units = units;
  }

  Optional<Finding> find(TrackedUnit unit) {
    List<TrackedPotential> largest =
        unit.potentials().stream()
            .sorted(Comparator.comparingDouble(p -> -p.shape().peakToPeakUv()))
            .limit(2)
            .toList();
    if (largest.size() < 2) {
      return Optional.empty();
    }
    List<Integer> sweeps = new ArrayList<>();
    for (int d = 0; d < unit.discharges(); d++) {
      if (isDoublet(unit, largest.get(0), largest.get(1), d)) {
        sweeps.add(d + 1);
      }
    }
    if (sweeps.size() < LEAST_DOUBLETS) {
      return Optional.empty();
    }
    return Optional.of(
        Finding.note(
            FindingCode.DOUBLETS,
            String.format(
                Locale.ROOT,
                "%d of %d discharges are followed by another within 12 ms: the second finds fibre"
                    + " and end-plate not yet recovered and is not measured.",
                sweeps.size(),
                unit.discharges()),
            Evidence.ofSweeps(sweeps)));
  }

  private boolean isDoublet(
      TrackedUnit unit, TrackedPotential first, TrackedPotential other, int d) {
    if (first.presence(d) != Presence.PRESENT) {
      return false;
    }
    double soonest = first.arrivalSamples(d) + signal.timeBase().lengthSamples(SOONEST_US);
    double latest = first.arrivalSamples(d) + signal.timeBase().lengthSamples(LATEST_US);
    double near = signal.timeBase().lengthSamples(NEAR_US);
    double apart = other.lagSamples() - first.lagSamples();
    for (double arrival : again(unit, first, d, soonest, latest)) {
      if (!isOwn(unit, d, arrival)
          && !isOfAnother(unit, arrival)
          && again(unit, other, d, arrival + apart - near, arrival + apart + near).length > 0) {
        return true;
      }
    }
    return false;
  }

  /** Whether another potential of the same discharge is expected at a place. */
  private boolean isOwn(TrackedUnit unit, int d, double place) {
    double near = signal.timeBase().lengthSamples(2 * NEAR_US);
    return unit.potentials().stream()
        .anyMatch(p -> Math.abs(unit.referenceSamples(d) + p.lagSamples() - place) < near);
  }

  /**
   * Whether another unit that fires of its own put a potential there. Seconds of doublets may have
   * been found as a unit too: it has few discharges.
   */
  private boolean isOfAnother(TrackedUnit unit, double place) {
    double near = signal.timeBase().lengthSamples(NEAR_US);
    double reach = signal.timeBase().lengthSamples(REACH_US);
    for (TrackedUnit other : units) {
      if (other == unit || other.discharges() < LEAST_SHARE * unit.discharges()) {
        continue;
      }
      for (int d = other.firstAtOrAfter(place - reach);
          d < other.discharges() && other.referenceSamples(d) < place + reach;
          d++) {
        for (TrackedPotential potential : other.potentials()) {
          if (potential.presence(d) == Presence.PRESENT
              && Math.abs(potential.arrivalSamples(d) - place) < near) {
            return true;
          }
        }
      }
    }
    return false;
  }

  /** Places in a stretch at which a potential is seen once more, to the sample. */
  private double[] again(
      TrackedUnit unit, TrackedPotential potential, int d, double from, double to) {
    double[] whole = potential.shape().samples();
    int steep = 1;
    for (int k = 1; k < whole.length - 1; k++) {
      if (Math.abs(whole[k + 1] - whole[k - 1]) > Math.abs(whole[steep + 1] - whole[steep - 1])) {
        steep = k;
      }
    }
    int before = Math.min(steep, (int) signal.timeBase().lengthSamples(BEFORE_US));
    int after = Math.min(whole.length - steep, (int) signal.timeBase().lengthSamples(AFTER_US));
    double[] shape = Arrays.copyOfRange(whole, steep - before, steep + after);
    Segment within = signal.segments().get(unit.segment(d));
    long start = Math.max((long) from - before, within.firstSample());
    long end = Math.min((long) to + after, within.endSample());
    if (end - start < shape.length) {
      return new double[0];
    }
    double[] window = new double[(int) (end - start)];
    signal.read(start, window, 0, window.length);
    double energy = 0;
    for (double value : shape) {
      energy += value * value;
    }
    if (isTooQuiet(window, shape, energy)) {
      return new double[0];
    }
    double[] products = products(window, shape);
    double[] places = new double[products.length];
    int n = 0;
    for (int k = 0; k < products.length; k++) {
      if (isThere(window, k, shape.length, products[k], energy)) {
        places[n++] = start + k + before;
      }
    }
    return Arrays.copyOf(places, n);
  }

  /** Whether no product can be large enough: where nothing fires, which is nearly everywhere. */
  private static boolean isTooQuiet(double[] window, double[] shape, double energy) {
    double strongest = 0;
    for (double value : window) {
      strongest = Math.max(strongest, Math.abs(value));
    }
    double all = 0;
    for (double value : shape) {
      all += Math.abs(value);
    }
    return strongest * all <= SMALLEST * energy;
  }

  /** Products of a shape with what lies at each place; four at once, for none waits for another. */
  private static double[] products(double[] window, double[] shape) {
    double[] products = new double[window.length - shape.length + 1];
    int k = 0;
    for (; k + 3 < products.length; k += 4) {
      double a = 0;
      double b = 0;
      double c = 0;
      double d = 0;
      for (int i = 0; i < shape.length; i++) {
        double value = shape[i];
        a += window[k + i] * value;
        b += window[k + i + 1] * value;
        c += window[k + i + 2] * value;
        d += window[k + i + 3] * value;
      }
      products[k] = a;
      products[k + 1] = b;
      products[k + 2] = c;
      products[k + 3] = d;
    }
    for (; k < products.length; k++) {
      for (int i = 0; i < shape.length; i++) {
        products[k] += window[k + i] * shape[i];
      }
    }
    return products;
  }

  /** Whether a shape, at about its usual size, explains what lies at a place. */
  private static boolean isThere(
      double[] window, int k, int length, double product, double energy) {
    double scale = product / energy;
    if (!(scale > SMALLEST && scale < LARGEST)) {
      return false;
    }
    double there = 0;
    for (int i = 0; i < length; i++) {
      there += window[k + i] * window[k + i];
    }
    return there - scale * product < MOST_LEFT * there;
  }
}
