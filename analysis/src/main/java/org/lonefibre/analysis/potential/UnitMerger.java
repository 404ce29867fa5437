package org.lonefibre.analysis.potential;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import org.lonefibre.signal.robust.RobustStatistics;

/**
 * Joins units that are one: the same potentials, alike in size and shape, at the same intervals,
 * firing where the other pauses, which two units that fire steadily hardly ever do. A unit that was
 * found in two parts would give each pair half of its discharges. A unit of a single potential that
 * is alike one of another unit and fires in the pauses of that one nearly always is what is left of
 * the other where its trigger fails. Units that nearly always fire together are one as well, unless
 * a potential of the one lies on one of the other: then it is the same, found twice.
 */
final class UnitMerger {

  private static final double NEAR_US = 120;
  private static final double SIZE_RATIO = 1.3;
  private static final double LEAST_LIKENESS = 0.93;

  /** The train itself says much: overlapping potentials may look like one of another shape. */
  private static final double LIKE_IN_TRAIN = 0.85;

  private static final double SAME_US = 3000;
  private static final double SOONEST = 0.5;
  private static final double LEAST_IN_PAUSES = 0.6;
  private static final double LONE_IN_PAUSES = 0.9;
  private static final double MOST_LONE = 0.5;
  private static final double PAUSE = 3;
  private static final double STEADY = 0.75;

  private static final double LOCKED_US = 300;
  private static final double LEAST_LOCKED = 0.85;
  private static final int FEWEST_LOCKED = 10;
  private static final double APART_US = 250;

  private final double near;
  private final double apart;
  private final double same;
  private final LockedUnits locked;

  UnitMerger(double samplesPerUs) {
    this.near = NEAR_US * samplesPerUs;
    this.apart = APART_US * samplesPerUs;
    this.same = SAME_US * samplesPerUs;
    this.locked = new LockedUnits(samplesPerUs, LOCKED_US, LEAST_LOCKED);
  }

  /** The units, each only once. */
  List<UnitTrack> merge(List<UnitTrack> units) {
    List<UnitTrack> merged = new ArrayList<>(units);
    merged.sort(Comparator.comparingInt(unit -> -unit.discharges));
    for (int a = 0; a < merged.size(); a++) {
      for (int b = merged.size() - 1; b > a; b--) {
        UnitTrack together = together(merged.get(a), merged.get(b));
        if (together != null) {
          merged.set(a, together);
          merged.remove(b);
          continue;
        }
        UnitTrack whole = whole(merged.get(a), merged.get(b));
        if (whole != null) {
          merged.set(a, whole);
          merged.remove(b);
        }
      }
    }
    return merged;
  }

  /** Both as one if they are two parts of it, or null. */
  private @Nullable UnitTrack whole(UnitTrack one, UnitTrack other) {
    Double shift = shift(one, other);
    if (shift != null) {
      int[] more = inPauses(one, other, shift);
      double least = other.potentials == 1 ? LONE_IN_PAUSES : LEAST_IN_PAUSES;
      if (more.length >= least * other.discharges) {
        return union(one, other, more, shift);
      }
    }
    shift = shiftByLeader(one, other, LIKE_IN_TRAIN);
    int[] more = shift == null ? new int[0] : OneTrain.discharges(one, other, shift, same);
    return shift == null || more.length == 0 ? null : union(one, other, more, shift);
  }

  /** The same by the potential most alike the leader of the second, whatever else there is. */
  private static @Nullable Double shiftByLeader(UnitTrack one, UnitTrack other, double least) {
    int leader = other.leader();
    Double shift = null;
    double most = least;
    for (int p = 0; p < one.potentials; p++) {
      double likeness = likeness(one.shape[p], other.shape[leader]);
      if (likeness > most) {
        most = likeness;
        shift = one.lag[p] - other.lag[leader];
      }
    }
    return shift;
  }

  /** Both as one if they fire together and bring potentials of their own, or null. */
  private @Nullable UnitTrack together(UnitTrack one, UnitTrack other) {
    if (other.discharges < FEWEST_LOCKED) {
      return null;
    }
    UnitTrack joined = locked.join(one, other);
    joined = joined == null ? locked.joinMirrored(one, other) : joined;
    return joined != null && joined.nearest() >= apart ? joined : null;
  }

  /** What must be added to places of the second unit to make them the first's, or null. */
  private @Nullable Double shift(UnitTrack one, UnitTrack other) {
    if (other.potentials == 1) {
      return loneShift(one, other);
    }
    int leader = other.leader();
    for (int p = 0; p < one.potentials; p++) {
      double shift = one.lag[p] - other.lag[leader];
      int alike = 0;
      for (int q = 0; q < other.potentials; q++) {
        alike += has(one, other.lag[q] + shift, other.shape[q]) ? 1 : 0;
      }
      if (isLike(one.shape[p], other.shape[leader])
          && alike >= Math.max(2, Math.min(one.potentials, other.potentials) - 1)) {
        return shift;
      }
    }
    return null;
  }

  /** The same for a unit of one potential: what the first has where its other potentials fail. */
  private static @Nullable Double loneShift(UnitTrack one, UnitTrack lone) {
    if (one.potentials == 1 || lone.discharges > MOST_LONE * one.discharges) {
      return null;
    }
    return shiftByLeader(one, lone, LEAST_LIKENESS);
  }

  private boolean has(UnitTrack unit, double lag, PotentialShape shape) {
    for (int p = 0; p < unit.potentials; p++) {
      if (Math.abs(unit.lag[p] - lag) < near && isLike(unit.shape[p], shape)) {
        return true;
      }
    }
    return false;
  }

  private static boolean isLike(PotentialShape one, PotentialShape other) {
    return likeness(one, other) > LEAST_LIKENESS;
  }

  /** Correlation of two shapes of like size; 0 if the sizes differ much. */
  private static double likeness(PotentialShape one, PotentialShape other) {
    double ratio = Math.sqrt(one.energy() / other.energy());
    if (ratio > SIZE_RATIO || ratio < 1 / SIZE_RATIO) {
      return 0;
    }
    double most = 0;
    double[] samples = other.samples();
    for (double at = other.origin() - 2; at <= other.origin() + 2; at += 0.5) {
      most = Math.max(most, one.project(samples, at));
    }
    return most / Math.sqrt(one.energy() * other.energy());
  }

  /**
   * The discharges of the second that fall into the pauses of the first. A second that fires
   * steadily lacks no discharges: its own rhythm says how long a pause must be. Otherwise the
   * shorter of the two does, for the parts of one unit pause where the other part fires.
   */
  private static int[] inPauses(UnitTrack one, UnitTrack other, double shift) {
    double usual = usualInterval(other);
    boolean isWhole = Rhythm.steadyShare(Rhythm.intervals(other), usual) >= STEADY;
    double soonest = SOONEST * (isWhole ? usual : Math.min(usualInterval(one), usual));
    return IntStream.range(0, other.discharges)
        .filter(
            d -> {
              double at = other.reference[d] - shift;
              int next = one.firstAtOrAfter(at);
              return (next == one.discharges || one.reference[next] - at >= soonest)
                  && (next == 0 || at - one.reference[next - 1] >= soonest);
            })
        .toArray();
  }

  private static double usualInterval(UnitTrack unit) {
    double[] all = Rhythm.intervals(unit);
    if (all.length == 0) {
      return 0;
    }
    double shortest = RobustStatistics.quantile(all.clone(), 0.1);
    double[] steady = Arrays.stream(all).filter(value -> value < PAUSE * shortest).toArray();
    return RobustStatistics.median(steady);
  }

  /** The first with some discharges of the second, whose places are moved to fit. */
  static UnitTrack union(UnitTrack one, UnitTrack other, int[] more, double shift) {
    int n = one.discharges + more.length;
    double[] reference = new double[n];
    int[] segment = new int[n];
    int[] from = new int[n];
    int a = 0;
    int b = 0;
    for (int k = 0; k < n; k++) {
      boolean first =
          b >= more.length
              || (a < one.discharges && one.reference[a] <= other.reference[more[b]] - shift);
      reference[k] = first ? one.reference[a] : other.reference[more[b]] - shift;
      segment[k] = first ? one.segment[a] : other.segment[more[b]];
      from[k] = first ? a++ : -1;
      b += first ? 0 : 1;
    }
    UnitTrack union = one.withDischarges(reference, segment, from);
    for (int k = 0; k < n; k++) {
      for (int p = 0; p < union.potentials && from[k] < 0; p++) {
        union.arrival[k][p] = reference[k] + union.lag[p];
      }
    }
    return union;
  }
}
