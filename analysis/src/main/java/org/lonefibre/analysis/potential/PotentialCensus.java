package org.lonefibre.analysis.potential;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;
import org.lonefibre.analysis.conditioning.ConditionedSignal;
import org.lonefibre.signal.interpolation.FractionalDelay;
import org.lonefibre.signal.robust.RobustStatistics;

/**
 * Counts the potentials of a unit anew: lobes of one potential that were taken for two are joined,
 * potentials that only show in the mean of many discharges are added.
 */
final class PotentialCensus {

  private static final double MERGED_US = 250;
  private static final double LOBE_REACH_US = 1300;
  private static final double ECHO_SHARE = 0.12;
  private static final double ECHO_REACH_US = 2600;
  private static final double LOBE_SPREAD = 1.7;
  private static final double LOBE_FLOOR_US = 1.5;
  private static final double SAME_WAY_LOBE = 0.35;
  private static final double SHADOW = 0.08;
  private static final double REMNANT = 0.03;
  private static final double RARE_SHARE = 0.15;
  private static final double WANDERS_US = 300;
  private static final double WANDERS_IN_NOISE_US = 200;
  private static final double APART_US = 350;
  private static final double REACH_MS = 7;
  private static final double POINTED_REACH_MS = 16;
  private static final double STEEP_US = 100;
  private static final double STANDS_OUT = 5.5;

  private static final int FEWEST = 4;
  private static final int MOST_DISCHARGES = 300;

  private final PotentialSettings settings;
  private final Stage stage;
  private final ConditionedSignal signal;
  private final TrackedSite site;
  private final WindowReader windows;
  private final double[] correlation;
  private final MovingParts moving;

  PotentialCensus(
      PotentialSettings settings,
      Stage stage,
      ConditionedSignal signal,
      TrackedSite site,
      WindowReader windows) {
    this.settings = settings;
    this.stage = stage;
    this.signal = signal;
    this.site = site;
    this.windows = windows;
    this.moving = new MovingParts(signal, site, windows);
    this.correlation = signal.noiseAutocorrelation(settings.shapeSamples(signal.timeBase()));
  }

  /** The unit without potentials that are parts of others: itself if there are none. */
  UnitTrack join(UnitTrack unit) {
    int[] kept = withoutLobes(unit);
    return kept.length == unit.potentials ? unit : unit.with(kept, new double[0]);
  }

  /** The unit as it is placed, without potentials that are other units': itself if none is. */
  UnitTrack withoutWanderers(UnitTrack unit) {
    int[] kept =
        IntStream.range(0, unit.potentials)
            .filter(p -> p == unit.leader() || isLocked(unit, p))
            .toArray();
    return kept.length == unit.potentials ? unit : unit.keeping(kept);
  }

  /** The unit with the potentials that were missed: itself if there are none. */
  UnitTrack addMissed(UnitTrack unit, int unitIndex) {
    double[] added = missed(unit, unitIndex);
    return added.length == 0
        ? unit
        : unit.with(IntStream.range(0, unit.potentials).toArray(), added);
  }

  /** The unit with a potential that moves within the shape of another: itself if there is none. */
  UnitTrack addMoving(UnitTrack unit, int unitIndex) {
    double place = moving.place(unit, unitIndex);
    return Double.isNaN(place)
        ? unit
        : unit.with(IntStream.range(0, unit.potentials).toArray(), new double[] {place});
  }

  /**
   * The place of the steepest phase that the mean residual of a unit has near another; that place
   * itself if there are too few discharges, or none of them reaches so far.
   */
  double steepestNear(UnitTrack unit, int unitIndex, double place, double near) {
    int leader = unit.leader();
    int reach = (int) Math.ceil(signal.timeBase().lengthSamples(POINTED_REACH_MS * 1000));
    int half = Math.max(2, (int) Math.round(signal.timeBase().lengthSamples(STEEP_US)));
    double[] sum = new double[2 * reach + 1];
    int n = addResiduals(unit, unitIndex, leader, reach, sum);
    double[] slopes = slopes(sum, half, Math.max(1, n));
    double centre = place - unit.lag[leader] + reach;
    int best = -1;
    for (int k = (int) Math.max(half, Math.ceil(centre - near));
        k < Math.min(slopes.length - half, centre + near);
        k++) {
      best = best < 0 || Math.abs(slopes[k]) > Math.abs(slopes[best]) ? k : best;
    }
    return best < 0 ? place : best - reach + unit.lag[leader];
  }

  private int[] withoutLobes(UnitTrack unit) {
    List<Integer> kept = new ArrayList<>();
    for (int p = 0; p < unit.potentials; p++) {
      if (unit.presentCount(p) >= FEWEST
          && stands(unit, p)
          && isLocked(unit, p)
          && !isMerged(unit, p)
          && !isLobe(unit, p)) {
        kept.add(p);
      }
    }
    if (kept.isEmpty()) {
      kept.add(unit.leader());
    }
    return kept.stream().mapToInt(Integer::intValue).toArray();
  }

  /** Whether a larger potential lies so near that the two cannot be told apart. */
  private boolean isMerged(UnitTrack unit, int p) {
    double nearest = signal.timeBase().lengthSamples(MERGED_US);
    for (int q = 0; q < unit.potentials; q++) {
      if (q != p
          && Math.abs(unit.lag[q] - unit.lag[p]) < nearest
          && unit.shape[q].energy() > unit.shape[p].energy()) {
        return true;
      }
    }
    return false;
  }

  private boolean stands(UnitTrack unit, int p) {
    double least = stage.sizeRatio() * settings.smallestSnr() * signal.noiseUv();
    double reach = signal.timeBase().lengthSamples(LOBE_REACH_US);
    for (int q = 0; q < unit.potentials; q++) {
      if (Math.abs(unit.lag[q] - unit.lag[p]) < reach) {
        least = Math.max(least, REMNANT * unit.shape[q].peakToPeakUv());
      }
    }
    return unit.shape[p].peakToPeakUv() >= least;
  }

  /** Whether a potential comes often, or at least at its time: else it is another unit's. */
  private boolean isLocked(UnitTrack unit, int p) {
    double[] places =
        IntStream.range(0, unit.discharges)
            .filter(d -> unit.isPresent(d, p))
            .mapToDouble(d -> unit.arrival[d][p] - unit.reference[d])
            .toArray();
    if (places.length == 0) {
      return false;
    }
    double spread = RobustStatistics.standardDeviation(places);
    return stage == Stage.APART && isInNoise(unit.shape[p])
        ? spread < signal.timeBase().lengthSamples(WANDERS_IN_NOISE_US)
        : places.length >= RARE_SHARE * unit.discharges
            || spread < signal.timeBase().lengthSamples(WANDERS_US);
  }

  /** Whether noise alone looks like a potential now and then: it does so anywhere. */
  private boolean isInNoise(PotentialShape shape) {
    return shape.scaleError(signal.noiseUv(), correlation) > PlaceSearch.IN_NOISE;
  }

  /** Whether a potential moves with a larger one near by as only a part of it can. */
  private boolean isLobe(UnitTrack unit, int p) {
    for (int q = 0; q < unit.potentials; q++) {
      double ratio = unit.shape[p].peakToPeakUv() / unit.shape[q].peakToPeakUv();
      double reach =
          signal.timeBase().lengthSamples(ratio < ECHO_SHARE ? ECHO_REACH_US : LOBE_REACH_US);
      if (q == p || Math.abs(unit.lag[q] - unit.lag[p]) > reach) {
        continue;
      }
      boolean sameWay = slope(unit.shape[p]) * slope(unit.shape[q]) > 0;
      if (ratio >= 1 || (sameWay && ratio > SAME_WAY_LOBE)) {
        continue;
      }
      if (movesTogether(unit, p, q)) {
        return true;
      }
    }
    return false;
  }

  private boolean movesTogether(UnitTrack unit, int p, int q) {
    double[] distances = new double[unit.discharges];
    double[] errors = new double[unit.discharges];
    int together = 0;
    int apart = 0;
    for (int d = 0; d < unit.discharges; d++) {
      if (unit.isPresent(d, p) && unit.isPresent(d, q)) {
        distances[together] = unit.arrival[d][p] - unit.arrival[d][q];
        errors[together++] = Math.hypot(error(unit, d, p), error(unit, d, q));
      } else if (unit.isPresent(d, q) && unit.presence[d][p] == Presence.ABSENT) {
        apart++;
      }
    }
    if (together < 5 || apart > 0.1 * (together + apart)) {
      return false;
    }
    double spread = RobustStatistics.standardDeviation(Arrays.copyOf(distances, together));
    double expected = RobustStatistics.median(Arrays.copyOf(errors, together));
    return spread
        < LOBE_SPREAD * Math.hypot(expected, signal.timeBase().lengthSamples(LOBE_FLOOR_US));
  }

  private double error(UnitTrack unit, int d, int p) {
    PotentialShape shape = unit.shape[p];
    return shape.arrivalError(signal.noiseUv(), correlation)
        * unit.widening[d][p]
        / Math.max(0.3, unit.scale[d][p]);
  }

  private static double slope(PotentialShape shape) {
    double[] samples = shape.samples();
    double steepest = 0;
    for (int k = 1; k < samples.length; k++) {
      double rise = samples[k] - samples[k - 1];
      steepest = Math.abs(rise) > Math.abs(steepest) ? rise : steepest;
    }
    return steepest;
  }

  /** Places at which the mean residual still shows a steep phase. */
  private double[] missed(UnitTrack unit, int unitIndex) {
    int leader = unit.leader();
    int reach = (int) Math.ceil(signal.timeBase().lengthSamples(REACH_MS * 1000));
    int half = Math.max(2, (int) Math.round(signal.timeBase().lengthSamples(STEEP_US)));
    double[] sum = new double[2 * reach + 1];
    int n = addResiduals(unit, unitIndex, leader, reach, sum);
    if (n < 8) {
      return new double[0];
    }
    double[] slopes = slopes(sum, half, n);
    double noise = RobustStatistics.standardDeviation(slopes);
    double least =
        Math.max(
            STANDS_OUT * noise, stage.slopeRatio() * settings.smallestSnr() * signal.noiseUv());
    List<Double> found = new ArrayList<>();
    double apart = signal.timeBase().lengthSamples(APART_US);
    while (found.size() < 4) {
      int best = -1;
      for (int k = half; k < slopes.length - half; k++) {
        double place = k - reach + unit.lag[leader];
        if (Math.abs(slopes[k]) >= least
            && (best < 0 || Math.abs(slopes[k]) > Math.abs(slopes[best]))
            && isApart(place, unit, found, apart)
            && Math.abs(slopes[k]) >= shadow(place, unit)) {
          best = k;
        }
      }
      if (best < 0) {
        break;
      }
      found.add(best - reach + unit.lag[leader]);
    }
    return found.stream().mapToDouble(Double::doubleValue).toArray();
  }

  /** Slope under which what is left beside a large potential may come from that. */
  private double shadow(double place, UnitTrack unit) {
    double reach = signal.timeBase().lengthSamples(LOBE_REACH_US);
    double least = 0;
    for (int p = 0; p < unit.potentials; p++) {
      if (Math.abs(place - unit.lag[p]) < reach) {
        least = Math.max(least, SHADOW * unit.shape[p].peakToPeakUv());
      }
    }
    return least;
  }

  private static boolean isApart(
      double place, UnitTrack unit, List<Double> found, double apartSamples) {
    for (double lag : unit.lag) {
      if (Math.abs(place - lag) < apartSamples) {
        return false;
      }
    }
    return found.stream().noneMatch(lag -> Math.abs(place - lag) < 1.6 * apartSamples);
  }

  private int addResiduals(UnitTrack unit, int unitIndex, int leader, int reach, double[] sum) {
    FractionalDelay delay = new FractionalDelay();
    double[] window = new double[sum.length + 2 * FractionalDelay.HALF_TAPS + 2];
    double[] row = new double[sum.length];
    int step = Math.max(1, unit.discharges / MOST_DISCHARGES);
    double cut = 6 * signal.noiseUv();
    int n = 0;
    for (int d = 0; d < unit.discharges; d += step) {
      if (!unit.isPresent(d, leader)) {
        continue;
      }
      double arrival = unit.arrival[d][leader];
      long start = (long) Math.floor(arrival) - reach - FractionalDelay.HALF_TAPS;
      windows.read(unit.segment[d], start, window);
      site.takeOut(window, start, unitIndex);
      for (int p = 0; p < unit.potentials; p++) {
        if (unit.isPresent(d, p)) {
          unit.shape[p].addTo(window, unit.arrival[d][p] - start, -unit.scale[d][p]);
        }
      }
      delay.read(window, arrival - start - reach, row, row.length);
      for (int k = 0; k < row.length; k++) {
        sum[k] += Math.max(-cut, Math.min(cut, row[k]));
      }
      n++;
    }
    return n;
  }

  private static double[] slopes(double[] sum, int half, int n) {
    double[] slopes = new double[sum.length];
    for (int k = half; k < sum.length - half; k++) {
      double difference = 0;
      for (int j = 1; j <= half; j++) {
        difference += sum[k + j] - sum[k - j];
      }
      slopes[k] = difference / half / n;
    }
    return slopes;
  }
}
