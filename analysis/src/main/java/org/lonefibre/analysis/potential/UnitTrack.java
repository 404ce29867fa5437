package org.lonefibre.analysis.potential;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.stream.IntStream;
import org.lonefibre.signal.robust.RobustStatistics;

/** A motor unit while it is tracked: shapes, and for each discharge where each potential lies. */
final class UnitTrack {

  private static final int INTERVALS_AROUND = 10;
  private static final double NEAREST_INTERVAL = 0.55;
  private static final double USUAL_PROBABILITY = 0.3;
  private static final double SMALLEST_SIZE = 0.3;
  private static final int FEWEST_SIZES = 5;
  private static final double TOLERATED = 0.01;

  final int potentials;
  final int discharges;

  /** Where lag 0 of each discharge lies, in samples of the channel. */
  final double[] reference;

  /** Index of the continuous segment of each discharge. */
  final int[] segment;

  /** Usual place of each potential from the reference, and its robust spread, in samples. */
  final double[] lag;

  final double[] spread;

  /** Shapes; null until estimated. */
  final PotentialShape[] shape;

  /** Arrival of each potential in each discharge, in samples of the channel. */
  final double[][] arrival;

  /** Size of each potential over its shape. */
  final double[][] scale;

  /** Factor by which overlap widens the error of the arrival. */
  final double[][] widening;

  /** What the fit left around each potential, over the noise (mean squares). */
  final double[][] misfit;

  final Presence[][] presence;

  UnitTrack(double[] reference, int[] segment, double[] lag) {
    this.potentials = lag.length;
    this.discharges = reference.length;
    this.reference = reference;
    this.segment = segment;
    this.lag = lag;
    this.spread = new double[potentials];
    this.shape = new PotentialShape[potentials];
    this.arrival = new double[discharges][potentials];
    this.scale = new double[discharges][potentials];
    this.widening = new double[discharges][potentials];
    this.misfit = new double[discharges][potentials];
    this.presence = new Presence[discharges][potentials];
    for (int d = 0; d < discharges; d++) {
      Arrays.fill(presence[d], Presence.UNCERTAIN);
      Arrays.fill(scale[d], 1);
      Arrays.fill(widening[d], 1);
      for (int p = 0; p < potentials; p++) {
        arrival[d][p] = reference[d] + lag[p];
      }
    }
  }

  /** The same discharges with other potentials: {@code kept} indices, then new places. */
  UnitTrack with(int[] kept, double[] newLags) {
    double[] lags = new double[kept.length + newLags.length];
    for (int k = 0; k < kept.length; k++) {
      lags[k] = lag[kept[k]];
    }
    System.arraycopy(newLags, 0, lags, kept.length, newLags.length);
    UnitTrack changed = new UnitTrack(reference, segment, lags);
    for (int k = 0; k < kept.length; k++) {
      changed.spread[k] = spread[kept[k]];
      for (int d = 0; d < discharges; d++) {
        changed.arrival[d][k] = arrival[d][kept[k]];
        changed.scale[d][k] = scale[d][kept[k]];
        changed.presence[d][k] = presence[d][kept[k]];
      }
    }
    for (int d = 0; d < discharges; d++) {
      Arrays.fill(changed.presence[d], kept.length, lags.length, Presence.PRESENT);
    }
    return changed;
  }

  /** Some of the potentials, as they are placed. */
  UnitTrack keeping(int[] kept) {
    UnitTrack fewer = with(kept, new double[0]);
    for (int k = 0; k < kept.length; k++) {
      fewer.shape[k] = shape[kept[k]];
      for (int d = 0; d < discharges; d++) {
        fewer.widening[d][k] = widening[d][kept[k]];
        fewer.misfit[d][k] = misfit[d][kept[k]];
      }
    }
    return fewer;
  }

  /** The same potentials with more discharges; {@code from} says which are old, -1 the new ones. */
  UnitTrack withDischarges(double[] newReference, int[] newSegment, int[] from) {
    UnitTrack changed = new UnitTrack(newReference, newSegment, lag.clone());
    System.arraycopy(spread, 0, changed.spread, 0, potentials);
    System.arraycopy(shape, 0, changed.shape, 0, potentials);
    for (int d = 0; d < changed.discharges; d++) {
      if (from[d] >= 0) {
        changed.arrival[d] = arrival[from[d]];
        changed.scale[d] = scale[from[d]];
        changed.presence[d] = presence[from[d]];
        changed.misfit[d] = misfit[from[d]];
        changed.widening[d] = widening[from[d]];
      } else {
        Arrays.fill(changed.presence[d], Presence.PRESENT);
      }
    }
    return changed;
  }

  /** Where a discharge lies: its reference in samples of the channel, and its segment. */
  record Place(double reference, int segment) {}

  /** The same potentials with more discharges, each potential where it usually is. */
  UnitTrack withMore(List<Place> more) {
    List<Place> added = new ArrayList<>(more);
    added.sort(Comparator.comparingDouble(Place::reference));
    int n = discharges + added.size();
    int[] from = new int[n];
    double[] newReference = new double[n];
    int[] newSegment = new int[n];
    int old = 0;
    for (int d = 0; d < n; d++) {
      int next = d - old;
      boolean takeOld =
          next >= added.size()
              || (old < discharges && reference[old] <= added.get(next).reference());
      from[d] = takeOld ? old : -1;
      newReference[d] = takeOld ? reference[old] : added.get(next).reference();
      newSegment[d] = takeOld ? segment[old] : added.get(next).segment();
      old += takeOld ? 1 : 0;
    }
    return withDischarges(newReference, newSegment, from);
  }

  /** The same without some discharges, given in rising order. */
  UnitTrack without(int[] gone) {
    return only(
        IntStream.range(0, discharges).filter(d -> Arrays.binarySearch(gone, d) < 0).toArray());
  }

  /** Some of the discharges, given in rising order. */
  UnitTrack only(int[] kept) {
    return withDischarges(
        Arrays.stream(kept).mapToDouble(d -> reference[d]).toArray(),
        Arrays.stream(kept).map(d -> segment[d]).toArray(),
        kept);
  }

  /** The same with places, sizes and presence of its own. */
  UnitTrack copy() {
    UnitTrack copy = new UnitTrack(reference.clone(), segment, lag.clone());
    System.arraycopy(spread, 0, copy.spread, 0, potentials);
    System.arraycopy(shape, 0, copy.shape, 0, potentials);
    for (int d = 0; d < discharges; d++) {
      copy.arrival[d] = arrival[d].clone();
      copy.scale[d] = scale[d].clone();
      copy.widening[d] = widening[d].clone();
      copy.misfit[d] = misfit[d].clone();
      copy.presence[d] = presence[d].clone();
    }
    return copy;
  }

  /** A discharge is taken up elsewhere: all potentials are held for present, at their usual lag. */
  void takeUpAt(int discharge, double place) {
    reference[discharge] = place;
    for (int p = 0; p < potentials; p++) {
      arrival[discharge][p] = place + lag[p];
    }
    Arrays.fill(scale[discharge], 1);
    Arrays.fill(presence[discharge], Presence.PRESENT);
  }

  /** Whether discharges follow each other in time. */
  boolean isInOrder() {
    return IntStream.range(1, discharges).allMatch(d -> reference[d - 1] < reference[d]);
  }

  /** The same places, shapes unknown. */
  UnitTrack withoutShapes() {
    UnitTrack bare = new UnitTrack(reference, segment, lag);
    for (int d = 0; d < discharges; d++) {
      bare.arrival[d] = arrival[d];
      bare.scale[d] = scale[d];
      bare.presence[d] = presence[d];
    }
    return bare;
  }

  /** A copy of the samples of each shape. */
  double[][] shapeSamples() {
    return Arrays.stream(shape).map(PotentialShape::samples).toArray(double[][]::new);
  }

  /** Takes other samples for the shapes, each with its arrival where it was. */
  void takeShapes(double[][] samples) {
    for (int p = 0; p < potentials; p++) {
      shape[p] = new PotentialShape(samples[p], shape[p].origin());
    }
  }

  /**
   * Makes the usual size of each potential 1: shape and size together are known, but not how they
   * are shared out, and this share may drift when both are improved in turn.
   */
  void normalise() {
    for (int p = 0; p < potentials; p++) {
      double[] sizes = new double[discharges];
      int n = 0;
      for (int d = 0; d < discharges; d++) {
        if (scale[d][p] > SMALLEST_SIZE) {
          sizes[n++] = scale[d][p];
        }
      }
      if (n < FEWEST_SIZES) {
        continue;
      }
      double usual = RobustStatistics.median(Arrays.copyOf(sizes, n));
      if (Math.abs(usual - 1) > TOLERATED) {
        shape[p] = shape[p].scaled(usual);
        for (int d = 0; d < discharges; d++) {
          scale[d][p] /= usual;
        }
      }
    }
  }

  /**
   * Moves arrivals to the steepest phase of their shape where they lie off it, from so far to so
   * far: a potential that was first seen by its end alone. None is moved onto another; whether any
   * was moved.
   */
  boolean recentre(double far, double farthest, double nearest) {
    boolean moved = false;
    for (int p = 0; p < potentials; p++) {
      int away = FibreFamily.steepest(shape[p].samples()) - shape[p].origin();
      boolean off = Math.abs(away) > far && Math.abs(away) < farthest && presentCount(p) > 0;
      if (off && isFree(p, lag[p] + away, nearest)) {
        shape[p] = shape[p].movedBy(away);
        lag[p] += away;
        for (int d = 0; d < discharges; d++) {
          arrival[d][p] += away;
        }
        moved = true;
      }
    }
    return moved;
  }

  private boolean isFree(int potential, double place, double nearest) {
    for (int q = 0; q < potentials; q++) {
      if (q != potential && Math.abs(lag[q] - place) < nearest) {
        return false;
      }
    }
    return true;
  }

  /** The first discharge at or after a place; the number of discharges if there is none. */
  int firstAtOrAfter(double samples) {
    int low = 0;
    int high = discharges;
    while (low < high) {
      int middle = (low + high) >>> 1;
      if (reference[middle] < samples) {
        low = middle + 1;
      } else {
        high = middle;
      }
    }
    return low;
  }

  /** Where the discharge nearest to a place lies; infinite if there is none. */
  double nearest(double place) {
    int next = firstAtOrAfter(place);
    double after = next < discharges ? reference[next] : Double.POSITIVE_INFINITY;
    double before = next > 0 ? reference[next - 1] : Double.NEGATIVE_INFINITY;
    return after - place < place - before ? after : before;
  }

  /** Median misfit of a potential where it is present; 0 if it never is. */
  double usualMisfit(int potential) {
    double[] seen = new double[discharges];
    int n = 0;
    for (int d = 0; d < discharges; d++) {
      if (isPresent(d, potential)) {
        seen[n++] = misfit[d][potential];
      }
    }
    return n == 0 ? 0 : RobustStatistics.median(Arrays.copyOf(seen, n));
  }

  /** Whether there is no discharge so near that the unit could not have fired there. */
  boolean mayFireAt(double place) {
    return hindrances(place).length == 0;
  }

  /** Discharges so near that the unit could not have fired there too. */
  int[] hindrances(double place) {
    int next = firstAtOrAfter(place);
    double apart = NEAREST_INTERVAL * usualInterval(Math.min(next, discharges - 1));
    int from = next;
    while (from > 0 && place - reference[from - 1] <= apart) {
      from--;
    }
    int to = next;
    while (to < discharges && reference[to] - place <= apart) {
      to++;
    }
    return IntStream.range(from, to).toArray();
  }

  boolean isPresent(int discharge, int potential) {
    return presence[discharge][potential] == Presence.PRESENT;
  }

  /** Number of discharges in which a potential is present. */
  int presentCount(int potential) {
    int count = 0;
    for (int d = 0; d < discharges; d++) {
      count += isPresent(d, potential) ? 1 : 0;
    }
    return count;
  }

  /** The potential by which discharges are placed: the largest that is nearly always there. */
  int leader() {
    int best = 0;
    double most = -1;
    for (int p = 0; p < potentials; p++) {
      PotentialShape known = shape[p];
      double size = known == null ? 1 : Math.sqrt(known.energy());
      double worth = size * presentCount(p);
      if (worth > most) {
        most = worth;
        best = p;
      }
    }
    return best;
  }

  /** Smallest distance between the steepest phases of two potentials, in samples; or infinite. */
  double nearest() {
    double nearest = Double.POSITIVE_INFINITY;
    for (int p = 0; p < potentials; p++) {
      for (int q = 0; q < p; q++) {
        nearest = Math.min(nearest, Math.abs(steepestLag(p) - steepestLag(q)));
      }
    }
    return nearest;
  }

  private double steepestLag(int potential) {
    PotentialShape known = shape[potential];
    return lag[potential] + FibreFamily.steepest(known.samples()) - known.origin();
  }

  /**
   * Usual interval between discharges around one; 0 if there are none. It is one of the shorter
   * ones: where a discharge was missed the interval is twice as long.
   */
  double usualInterval(int d) {
    int from = Math.max(0, d - INTERVALS_AROUND);
    int to = Math.min(discharges - 1, d + INTERVALS_AROUND);
    double[] intervals = new double[Math.max(0, to - from)];
    for (int e = from; e < to; e++) {
      intervals[e - from] = reference[e + 1] - reference[e];
    }
    return intervals.length == 0 ? 0 : RobustStatistics.quantile(intervals, USUAL_PROBABILITY);
  }
}
