package org.lonefibre.analysis.potential;

import java.util.ArrayList;
import java.util.List;
import org.lonefibre.analysis.conditioning.ConditionedSignal;
import org.lonefibre.signal.recording.TimeBase;

/**
 * The way from units as they were sought to units as they are: one step after the other, each
 * begins with what the one before it knows.
 *
 * <ul>
 *   <li>Thread rule: one thread at a time.
 * </ul>
 */
final class UnitFollower {

  private static final int FIRST_TURNS = 2;
  private static final int MOST_EXCHANGES = 3;
  private static final int MOST_FILLINGS = 8;
  private static final double ONCE_US = 1500;
  private static final double HIDDEN_US = 200;

  private final ConditionedSignal signal;
  private final TrackedSite site;
  private final WindowReader windows;
  private final UnitWorkers workers;
  private final UnitWorkers counters;
  private final UnitWorkers finishers;
  private final DischargeExchange exchange;
  private final BorrowedDischarges borrowed;
  private final CollisionFitter collisions;

  /**
   * @param workers while potentials are counted and units told apart
   * @param counters of the potentials that hardly stand out of noise
   * @param finishers once they are, for whole shapes
   */
  UnitFollower(
      ConditionedSignal signal,
      TrackedSite site,
      WindowReader windows,
      UnitWorkers workers,
      UnitWorkers counters,
      UnitWorkers finishers) {
    this.signal = signal;
    this.site = site;
    this.windows = windows;
    this.workers = workers;
    this.counters = counters;
    this.finishers = finishers;
    FreedStretches stretches = new FreedStretches(signal, site, windows, workers.fitter());
    this.exchange = new DischargeExchange(site, workers.fitter(), stretches);
    this.borrowed =
        new BorrowedDischarges(
            site,
            finishers.fitter(),
            stretches,
            new Unevenness(signal.timeBase().lengthSamples(1)));
    this.collisions = new CollisionFitter(signal, site, windows, finishers.fitter());
  }

  /** The units that came of these, every potential placed in every discharge. */
  List<UnitTrack> follow(List<UnitTrack> begun) {
    List<UnitTrack> units = new ArrayList<>(begun);
    placeFirst(units);
    countPotentials(units);
    units = toldApart(units);
    countSmall(units);
    findHidden(units);
    lengthen(units);
    nameLoneSpikes(units);
    fill(units);
    units = withoutSpares(units);
    units = solved(units);
    doubt(units);
    return units;
  }

  private void placeFirst(List<UnitTrack> units) {
    for (int u = 0; u < units.size(); u++) {
      workers.shapes().estimate(units.get(u), u, ShapeEstimator.Reach.CONFINED);
      workers.settle(units.get(u), u, FIRST_TURNS);
      units.set(u, DischargeSieve.sieve(units.get(u)));
    }
    site.note(units);
  }

  private void countPotentials(List<UnitTrack> units) {
    for (int u = 0; u < units.size(); u++) {
      units.set(u, DischargeSieve.sieve(workers.count(units.get(u), u)));
      site.note(units);
    }
  }

  /**
   * Discharges change to the unit that explains them best; two in one are parted, one in two
   * joined.
   */
  private List<UnitTrack> toldApart(List<UnitTrack> units) {
    List<UnitTrack> own = workers.exchange(units, site, exchange);
    own = workers.exchange(workers.split(own, site), site, exchange);
    return workers.merge(own, site);
  }

  /** Potentials that hardly stand out of noise, now that a unit has no discharges of others. */
  private void countSmall(List<UnitTrack> units) {
    for (int u = 0; u < units.size(); u++) {
      units.set(u, counters.countAgain(units.get(u), u));
      site.note(units);
    }
  }

  /** Potentials that a larger one hid: what was taken for absent may be there. */
  private void findHidden(List<UnitTrack> units) {
    NearAbsences absences = new NearAbsences(signal.timeBase(), leavings(), workers);
    for (int u = 0; u < units.size(); u++) {
      units.set(u, absences.withThem(units.get(u), u));
      site.note(units);
    }
  }

  private UnitLeavings leavings() {
    return new UnitLeavings(signal, site, windows);
  }

  /** A short shape cannot hide a second potential; a whole one gives its neighbours no tail. */
  private void lengthen(List<UnitTrack> units) {
    for (int u = 0; u < units.size(); u++) {
      finishers.lengthen(units.get(u), u);
      site.note(units);
    }
  }

  private void nameLoneSpikes(List<UnitTrack> units) {
    LoneSpikes lone = new LoneSpikes(signal, site, windows);
    for (int u = 0; u < units.size(); u++) {
      for (int round = 0;
          round < UnitWorkers.MOST_REVISIONS && lone.rename(units.get(u), u);
          round++) {
        finishers.settle(units.get(u), u);
        site.note(units);
      }
    }
  }

  /** Adds discharges that were missed. */
  private void fill(List<UnitTrack> units) {
    DischargeFiller filler = new DischargeFiller(signal, site, windows, finishers.fitter());
    boolean any = true;
    for (int pass = 0; any && pass < MOST_FILLINGS; pass++) {
      any = false;
      for (int u = 0; u < units.size(); u++) {
        UnitTrack filled = filler.fill(units.get(u), u);
        any |= filled != units.get(u);
        if (pass == 0 || filled != units.get(u)) {
          units.set(u, filled);
          finishers.fitter().fit(filled, u);
          site.note(units);
        }
      }
    }
  }

  /**
   * Solves collisions for the first time; units that others explain are no more, and what is left
   * may then be seen to fire with another.
   */
  private List<UnitTrack> withoutSpares(List<UnitTrack> units) {
    List<UnitTrack> solved = finishers.merge(collisions.resolve(units), site);
    solved = exchangedWhole(solved);
    return finishers.merge(new SpareUnits(collisions, site).leaveOut(solved), site);
  }

  /** Each exchange betters the shapes by which the next one judges. */
  private List<UnitTrack> exchangedWhole(List<UnitTrack> units) {
    List<UnitTrack> before = units;
    List<UnitTrack> after = finishers.exchange(units, site, exchange);
    for (int round = 1; round < MOST_EXCHANGES && after != before; round++) {
      before = after;
      after = finishers.exchange(before, site, exchange);
    }
    List<UnitTrack> returned = finishers.giveBack(after, site, borrowed);
    return returned == after ? after : finishers.exchange(returned, site, exchange);
  }

  /**
   * Shapes and collisions by turns: what collisions hid is known for the shapes that follow, and a
   * unit that lost its discharges to others may be a spare one by now.
   */
  private List<UnitTrack> solved(List<UnitTrack> units) {
    GhostPotentials ghosts = new GhostPotentials(signal.timeBase(), leavings(), finishers);
    for (int u = 0; u < units.size(); u++) {
      UnitTrack whole = finishers.finish(DischargeSieve.sieve(units.get(u)), u);
      units.set(u, ghosts.without(whole, u));
    }
    site.note(units);
    List<UnitTrack> solved =
        new ArrayList<>(new SpareUnits(collisions, site).leaveOut(collisions.resolve(units)));
    for (int u = 0; u < solved.size(); u++) {
      finishers.polishAgain(solved.get(u), u);
      site.note(solved);
    }
    solved = collisions.resolve(solved);
    TimeBase timeBase = signal.timeBase();
    solved.replaceAll(unit -> DischargeSieve.once(unit, timeBase.lengthSamples(ONCE_US)));
    site.note(solved);
    return solved;
  }

  /** What may be another unit's is doubted, what wanders is left out. */
  private void doubt(List<UnitTrack> units) {
    new UnseenParts(signal, site, windows, finishers.fitter()).doubt(units);
    new OddPlaces(signal, site, finishers.fitter()).doubt(units);
    double near = signal.timeBase().lengthSamples(HIDDEN_US);
    UnsureAbsences.doubtHidden(units, near);
    UnsureAbsences.doubtTakenForAnother(units, near);
    new LoneWitness(signal, site, windows, finishers.fitter()).question(units);
    units.replaceAll(finishers.census()::withoutWanderers);
    site.note(units);
  }
}
