package org.lonefibre.analysis.potential;

import java.util.ArrayList;
import java.util.List;
import org.lonefibre.analysis.potential.ShapeEstimator.Reach;

/** What works on the units of one site, one unit or all of them at a time. */
record UnitWorkers(
    ShapeEstimator shapes,
    ShapeSeparator separator,
    SweepFitter fitter,
    PotentialCensus census,
    double noiseUv,
    double samplesPerUs) {

  static final int TURNS = 24;
  static final int MOST_REVISIONS = 6;
  private static final double OFF_CENTRE_US = 150;
  private static final double FARTHEST_US = 500;
  private static final double APART_US = 300;
  private static final double NEAREST_US = 200;
  private static final double MOVING_SHARE = 0.3;

  /** Shapes from a safe beginning to their whole length, arrivals and presence with them. */
  void settle(UnitTrack unit, int u) {
    settle(unit, u, TURNS);
  }

  /** The same with fewer turns of shapes that overlap. */
  void settle(UnitTrack unit, int u, int turns) {
    shapes.estimate(unit, u, Reach.CONFINED);
    fitter.fit(unit, u);
    polish(unit, u, turns);
    recentre(unit, u, turns);
  }

  private void recentre(UnitTrack unit, int u, int turns) {
    if (unit.recentre(
        OFF_CENTRE_US * samplesPerUs, FARTHEST_US * samplesPerUs, APART_US * samplesPerUs)) {
      shapes.estimate(unit, u, Reach.CONFINED);
      fitter.fit(unit, u);
      polish(unit, u, turns);
    }
  }

  /** Settles a unit that was settled before, since when only what others put there has changed. */
  private void settleAgain(UnitTrack unit, int u) {
    polishAgain(unit, u);
    recentre(unit, u, TURNS);
  }

  /** Whole shapes, arrivals and presence once more. */
  void polish(UnitTrack unit, int u, int turns) {
    shapes.estimate(unit, u, Reach.WHOLE);
    fitter.fit(unit, u);
    if (separator.isNeeded(unit)) {
      new OverlapSettling(separator, fitter, noiseUv).settle(unit, u, turns);
    }
  }

  /** The same for shapes that were whole before; those that overlap go on from where they are. */
  void polishAgain(UnitTrack unit, int u) {
    if (separator.isNeeded(unit)) {
      new OverlapSettling(separator, fitter, noiseUv).settle(unit, u, TURNS);
    } else {
      polish(unit, u, TURNS);
    }
  }

  /** A settled unit with the whole length of its shapes. */
  void lengthen(UnitTrack unit, int u) {
    shapes.lengthen(unit);
    polishAgain(unit, u);
  }

  /** Whole shapes at last, without potentials that came to nothing on the way. */
  UnitTrack finish(UnitTrack unit, int u) {
    polishAgain(unit, u);
    UnitTrack joined = census.join(unit);
    if (joined != unit) {
      settle(joined, u);
    }
    return joined;
  }

  /** The units, those that turn out to be two as two. */
  List<UnitTrack> split(List<UnitTrack> units, TrackedSite site) {
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
      boolean same = better.get(u) == units.get(u);
      better.set(u, DischargeSieve.sieve(better.get(u)));
      if (same) {
        settleAgain(better.get(u), u);
      } else {
        settle(better.get(u), u);
      }
      site.note(better);
    }
    return better;
  }

  /** The units, without what one took from another that is alike. */
  List<UnitTrack> giveBack(List<UnitTrack> units, TrackedSite site, BorrowedDischarges borrowed) {
    List<UnitTrack> better = new ArrayList<>(units);
    boolean any = false;
    for (int from = 0; from < units.size(); from++) {
      for (int to = 0; to < units.size(); to++) {
        if (from != to && borrowed.giveBack(better, from, to)) {
          any = true;
          for (int u : new int[] {from, to}) {
            settle(better.get(u), u);
            site.note(better);
          }
        }
      }
    }
    return any ? better : units;
  }

  /** The units, those that were found in two parts as one. */
  List<UnitTrack> merge(List<UnitTrack> units, TrackedSite site) {
    List<UnitTrack> merged = new UnitMerger(samplesPerUs).merge(units);
    if (merged.size() == units.size()) {
      return units;
    }
    site.note(merged);
    for (int u = 0; u < merged.size(); u++) {
      if (units.contains(merged.get(u))) {
        settleAgain(merged.get(u), u);
      } else {
        settle(merged.get(u), u);
      }
      site.note(merged);
    }
    return merged;
  }

  /** Looks for potentials missed and for parts of one taken for two, until neither is found. */
  UnitTrack count(UnitTrack first, int u) {
    UnitTrack unit = first;
    settle(unit, u);
    // First what moves within a shape: all that lies behind it is hidden by the same shape.
    boolean mayMove = true;
    for (int round = 0; round < MOST_REVISIONS; round++) {
      UnitTrack joined = census.join(unit);
      UnitTrack straight = new MirroredDischarges(samplesPerUs).straightened(joined);
      if (straight != unit) {
        unit = straight;
        settle(unit, u);
        continue;
      }
      boolean last = round == MOST_REVISIONS - 1;
      UnitTrack moving = last || !mayMove ? unit : census.addMoving(unit, u);
      UnitTrack added = last || moving != unit ? moving : census.addMissed(unit, u);
      if (added == unit) {
        break;
      }
      settle(added, u);
      mayMove = moving == unit || !fallsOnAnother(added, unit);
      unit = mayMove ? added : unit;
    }
    return unit;
  }

  /**
   * Looks for potentials missed in a unit that was counted before, and first for those that came to
   * nothing since it gave discharges to others.
   */
  UnitTrack countAgain(UnitTrack first, int u) {
    UnitTrack unit = census.join(first);
    if (unit != first) {
      settle(unit, u);
    }
    for (int round = 0; round < MOST_REVISIONS; round++) {
      UnitTrack added = census.addMissed(unit, u);
      if (added == unit) {
        break;
      }
      settle(added, u);
      UnitTrack joined = census.join(added);
      if (joined != added) {
        settle(joined, u);
      }
      if (joined.potentials <= unit.potentials) {
        return unit;
      }
      unit = joined;
    }
    return unit;
  }

  /**
   * Whether the potential that was added last came so near another, and moves so little against it,
   * that the two are parts of one: two fibres that arrive together, neither of which can be
   * measured.
   */
  boolean fallsOnAnother(UnitTrack added, UnitTrack before) {
    double near = NEAREST_US * samplesPerUs;
    double nearest = added.nearest();
    return nearest < near
        && before.nearest() >= near
        && added.spread[added.potentials - 1] < MOVING_SHARE * nearest;
  }
}
