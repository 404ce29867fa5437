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

  private static final int FIRST_PAIRS_OF_TURNS = 1;
  private static final int PAIRS_OF_TURNS = 12;
  private static final int MOST_REVISIONS = 6;
  private static final double OFF_CENTRE_US = 150;
  private static final double FARTHEST_US = 500;
  private static final double APART_US = 300;
  private static final double ONCE_US = 1500;

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
    Workers workers = workers(signal, discharges, site, windows);
    List<UnitTrack> units = new ArrayList<>();
    for (UnitDraft draft : discharges.units()) {
      units.add(begin(draft));
    }
    for (int u = 0; u < units.size(); u++) {
      workers.shapes().estimate(units.get(u), u, Reach.CONFINED);
      workers.settle(units.get(u), u, FIRST_PAIRS_OF_TURNS);
      units.set(u, DischargeSieve.sieve(units.get(u)));
    }
    site.note(units);
    for (int u = 0; u < units.size(); u++) {
      units.set(u, DischargeSieve.sieve(workers.count(units.get(u), u)));
      site.note(units);
    }
    DischargeExchange exchange = new DischargeExchange(signal, site, windows, workers.fitter());
    units = workers.exchange(units, site, exchange);
    units = workers.split(units, site, signal.timeBase().lengthSamples(1));
    units = workers.exchange(units, site, exchange);
    units = workers.merge(units, site, signal.timeBase().lengthSamples(1));
    LoneSpikes lone = new LoneSpikes(signal, site, windows);
    for (int u = 0; u < units.size(); u++) {
      for (int round = 0; round < MOST_REVISIONS && lone.rename(units.get(u), u); round++) {
        workers.settle(units.get(u), u);
        site.note(units);
      }
    }
    DischargeFiller filler = new DischargeFiller(signal, site, windows);
    for (int pass = 0; pass < 2; pass++) {
      for (int u = 0; u < units.size(); u++) {
        units.set(u, filler.fill(units.get(u), u));
        workers.fitter().fit(units.get(u), u);
        site.note(units);
      }
    }
    CollisionFitter collisions = new CollisionFitter(signal, site, windows, workers.fitter());
    units = workers.merge(collisions.resolve(units), site, signal.timeBase().lengthSamples(1));
    units = workers.exchange(units, site, exchange);
    units = new SpareUnits(collisions, site).leaveOut(units);
    for (int u = 0; u < units.size(); u++) {
      units.set(u, workers.finish(DischargeSieve.sieve(units.get(u)), u));
    }
    site.note(units);
    units = collisions.resolve(units);
    // What collisions hid is known now: shapes once more with it, and collisions with those.
    for (int u = 0; u < units.size(); u++) {
      workers.polish(units.get(u), u, PAIRS_OF_TURNS);
      site.note(units);
    }
    units = collisions.resolve(units);
    double nearest = signal.timeBase().lengthSamples(ONCE_US);
    units.replaceAll(unit -> DischargeSieve.once(unit, nearest));
    site.note(units);
    new OddPlaces(signal, site).doubt(units);
    new LoneWitness(signal, site, windows, workers.fitter()).question(units);
    units.replaceAll(workers.census()::withoutWanderers);
    site.note(units);
    return new FollowedUnits(
        new TrackReader(settings, conditioned),
        workers,
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
    Workers workers = workers(signal, discharges, site, new WindowReader(signal));
    for (UnitDraft draft : discharges.units()) {
      UnitTrack unit = begin(draft);
      workers.shapes().estimate(unit, 0, Reach.CONFINED);
      workers.settle(unit, 0);
      for (int round = 0; round < MOST_REVISIONS; round++) {
        UnitTrack joined = workers.census().join(unit);
        UnitTrack better = joined == unit ? workers.census().addMoving(unit, 0) : joined;
        if (better == unit || round == MOST_REVISIONS - 1 && joined == unit) {
          break;
        }
        unit = better;
        workers.settle(unit, 0);
      }
      units.add(unit);
    }
    return new FollowedUnits(
        new TrackReader(settings, conditioned),
        workers,
        site,
        signal.timeBase().lengthSamples(1),
        units);
  }

  private Workers workers(
      ConditionedSignal signal, Discharges discharges, TrackedSite site, WindowReader windows) {
    return new Workers(
        new ShapeEstimator(settings, signal, site, windows),
        new ShapeSeparator(settings, signal, site, windows),
        new SweepFitter(settings, signal, discharges, site, windows),
        new PotentialCensus(settings, signal, site, windows),
        signal.noiseUv(),
        signal.timeBase().lengthSamples(1));
  }

  /** The workers on one site. */
  record Workers(
      ShapeEstimator shapes,
      ShapeSeparator separator,
      SweepFitter fitter,
      PotentialCensus census,
      double noiseUv,
      double samplesPerUs) {

    /** Shapes from a safe beginning to their whole length, arrivals and presence with them. */
    void settle(UnitTrack unit, int u) {
      settle(unit, u, PAIRS_OF_TURNS);
    }

    private void settle(UnitTrack unit, int u, int pairsOfTurns) {
      shapes.estimate(unit, u, Reach.CONFINED);
      fitter.fit(unit, u);
      polish(unit, u, pairsOfTurns);
      if (unit.recentre(
          OFF_CENTRE_US * samplesPerUs, FARTHEST_US * samplesPerUs, APART_US * samplesPerUs)) {
        shapes.estimate(unit, u, Reach.CONFINED);
        fitter.fit(unit, u);
        polish(unit, u, pairsOfTurns);
      }
    }

    /** Whole shapes, arrivals and presence once more. */
    void polish(UnitTrack unit, int u, int pairsOfTurns) {
      shapes.estimate(unit, u, Reach.WHOLE);
      fitter.fit(unit, u);
      if (separator.isNeeded(unit)) {
        new OverlapSettling(separator, fitter, noiseUv).settle(unit, u, pairsOfTurns);
      }
    }

    /** Whole shapes at last, without potentials that came to nothing on the way. */
    UnitTrack finish(UnitTrack unit, int u) {
      polish(unit, u, PAIRS_OF_TURNS);
      UnitTrack joined = census.join(unit);
      if (joined != unit) {
        settle(joined, u);
      }
      return joined;
    }

    /** The units, those that turn out to be two as two. */
    List<UnitTrack> split(List<UnitTrack> units, TrackedSite site, double samplesPerUs) {
      TrackSplitter splitter = new TrackSplitter(samplesPerUs);
      List<UnitTrack> parts = new ArrayList<>();
      for (UnitTrack unit : units) {
        parts.addAll(splitter.split(unit));
      }
      if (parts.size() > units.size()) {
        site.note(parts);
        for (int u = 0; u < parts.size(); u++) {
          parts.set(u, DischargeSieve.sieve(count(parts.get(u), u)));
          site.note(parts);
        }
      }
      return parts;
    }

    /** The units, each with the discharges that it explains best. */
    List<UnitTrack> exchange(List<UnitTrack> units, TrackedSite site, DischargeExchange exchange) {
      List<UnitTrack> better = exchange.exchange(units);
      for (int u = 0; better != units && u < better.size(); u++) {
        better.set(u, DischargeSieve.sieve(better.get(u)));
        settle(better.get(u), u);
        site.note(better);
      }
      return better;
    }

    /** The units, those that were found in two parts as one. */
    List<UnitTrack> merge(List<UnitTrack> units, TrackedSite site, double samplesPerUs) {
      List<UnitTrack> merged = new UnitMerger(samplesPerUs).merge(units);
      if (merged.size() == units.size()) {
        return units;
      }
      site.note(merged);
      for (int u = 0; u < merged.size(); u++) {
        settle(merged.get(u), u);
        site.note(merged);
      }
      return merged;
    }

    /** Looks for potentials missed and for parts of one taken for two, until neither is found. */
    UnitTrack count(UnitTrack first, int u) {
      UnitTrack unit = first;
      settle(unit, u);
      for (int round = 0; round < MOST_REVISIONS; round++) {
        UnitTrack joined = census.join(unit);
        if (joined != unit) {
          unit = joined;
          settle(unit, u);
          continue;
        }
        UnitTrack added = round == MOST_REVISIONS - 1 ? unit : census.add(unit, u);
        if (added == unit) {
          break;
        }
        unit = added;
        settle(unit, u);
      }
      return unit;
    }
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
