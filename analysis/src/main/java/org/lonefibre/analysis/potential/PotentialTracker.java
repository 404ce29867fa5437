package org.lonefibre.analysis.potential;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.stream.IntStream;
import org.lonefibre.analysis.conditioning.ConditionedSignal;
import org.lonefibre.analysis.discharge.Discharges;
import org.lonefibre.analysis.discharge.UnitDraft;
import org.lonefibre.analysis.potential.ShapeEstimator.Reach;

/**
 * Follows the potentials of every motor unit through a site: shape, arrival and presence in each
 * discharge.
 *
 * <ul>
 *   <li>Settings in the constructor, a site in the call, immutable units out.
 *   <li>Thread rule: safe, keeps nothing between calls.
 * </ul>
 */
public final class PotentialTracker {

  private final PotentialSettings settings;

  /** A tracker with these settings. */
  public PotentialTracker(PotentialSettings settings) {
    this.settings = settings;
  }

  /** The units of a site with their potentials placed in every discharge. */
  public List<TrackedUnit> track(ConditionedSignal conditioned, Discharges discharges) {
    return follow(conditioned, discharges).units();
  }

  /** The same, to be changed where a person wants it otherwise. */
  public FollowedUnits follow(ConditionedSignal conditioned, Discharges discharges) {
    ConditionedSignal signal = conditioned.forTiming();
    WindowReader windows = new WindowReader(signal);
    TrackedSite site = new TrackedSite();
    Stage first = discharges.units().size() > 1 ? Stage.MIXED : Stage.APART;
    UnitWorkers workers = workers(settings, first, signal, discharges, site, windows);
    UnitWorkers finishers =
        workers(settings.whole(), Stage.APART, signal, discharges, site, windows);
    List<UnitTrack> begun = new ArrayList<>();
    for (UnitDraft draft : discharges.units()) {
      begun.add(begin(draft));
    }
    UnitWorkers counters =
        first == Stage.APART
            ? workers
            : workers(settings, Stage.APART, signal, discharges, site, windows);
    List<UnitTrack> units =
        new UnitFollower(signal, site, windows, workers, counters, finishers).follow(begun);
    return new FollowedUnits(
        new TrackReader(settings.whole(), conditioned),
        finishers,
        site,
        signal.timeBase().lengthSamples(1),
        units);
  }

  /**
   * The potentials that stimuli evoke, placed after every stimulus: one unit, whose discharges are
   * the stimuli, or none.
   */
  public List<TrackedUnit> evoked(ConditionedSignal conditioned, Discharges discharges) {
    return followEvoked(conditioned, discharges).units();
  }

  /** The same, to be given a potential where a person saw one. */
  public FollowedUnits followEvoked(ConditionedSignal conditioned, Discharges discharges) {
    ConditionedSignal signal = conditioned.forTiming();
    List<UnitTrack> units = new ArrayList<>();
    TrackedSite site = new TrackedSite();
    WindowReader windows = new WindowReader(signal);
    UnitWorkers workers = workers(settings, Stage.MIXED, signal, discharges, site, windows);
    UnitWorkers finishers =
        workers(settings.whole(), Stage.APART, signal, discharges, site, windows);
    for (UnitDraft draft : discharges.units()) {
      UnitTrack unit = begin(draft);
      workers.shapes().estimate(unit, 0, Reach.CONFINED);
      workers.settle(unit, 0);
      for (int round = 0; round < UnitWorkers.MOST_REVISIONS; round++) {
        UnitTrack joined = workers.census().join(unit);
        UnitTrack better = joined == unit ? workers.census().addMoving(unit, 0) : joined;
        if (better == unit || round == UnitWorkers.MOST_REVISIONS - 1 && joined == unit) {
          break;
        }
        workers.settle(better, 0);
        if (joined == unit && workers.fallsOnAnother(better, unit)) {
          break;
        }
        unit = better;
      }
      finishers.lengthen(unit, 0);
      units.add(unit);
    }
    return new FollowedUnits(
        new TrackReader(settings.whole(), conditioned),
        finishers,
        site,
        signal.timeBase().lengthSamples(1),
        units);
  }

  private static UnitWorkers workers(
      PotentialSettings settings,
      Stage stage,
      ConditionedSignal signal,
      Discharges discharges,
      TrackedSite site,
      WindowReader windows) {
    return new UnitWorkers(
        new ShapeEstimator(settings, signal, site, windows),
        new ShapeSeparator(settings, signal, site, windows),
        new SweepFitter(settings, stage, signal, discharges, site, windows),
        new PotentialCensus(settings, stage, signal, site, windows),
        signal.noiseUv(),
        signal.timeBase().lengthSamples(1));
  }

  /** The largest potential first: its shape is taken out before the smaller ones are estimated. */
  private static UnitTrack begin(UnitDraft draft) {
    double[] reference = new double[draft.discharges()];
    int[] segment = new int[draft.discharges()];
    double[] lag = new double[draft.potentials()];
    for (int d = 0; d < reference.length; d++) {
      reference[d] = draft.referenceSamples(d);
      segment[d] = draft.segment(d);
    }
    int[] order =
        IntStream.range(0, lag.length)
            .boxed()
            .sorted(Comparator.comparingDouble(p -> -draft.sizeRatio(p)))
            .mapToInt(Integer::intValue)
            .toArray();
    for (int p = 0; p < lag.length; p++) {
      lag[p] = draft.lagSamples(order[p]);
    }
    UnitTrack unit = new UnitTrack(reference, segment, lag);
    for (int d = 0; d < reference.length; d++) {
      for (int p = 0; p < lag.length; p++) {
        if (draft.isSeen(d, order[p])) {
          unit.presence[d][p] = Presence.PRESENT;
          unit.arrival[d][p] = draft.spikeSamples(d, order[p]);
        }
      }
    }
    return unit;
  }
}
