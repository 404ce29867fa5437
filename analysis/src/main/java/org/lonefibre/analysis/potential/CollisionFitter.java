package org.lonefibre.analysis.potential;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.conditioning.ConditionedSignal;
import org.lonefibre.analysis.potential.CollisionGroups.Group;
import org.lonefibre.analysis.potential.CollisionGroups.Member;
import org.lonefibre.analysis.potential.CollisionSearch.Candidate;
import org.lonefibre.analysis.potential.Explanation.Part;
import org.lonefibre.analysis.potential.Explanation.Volley;

/**
 * Explains anew what could not be explained discharge by discharge: where discharges of different
 * units lie on each other, each is disturbed by the other, one may have been missed and another
 * invented. All units are asked what they would put there, and the best common answer is taken if
 * it leaves no more of the signal than what was known before.
 */
final class CollisionFitter {

  private static final int MOST_DISCHARGES = 5;
  private static final double LONGEST_US = 25_000;
  private static final double NEAR_US = 350;
  private static final double NEAREST_INTERVAL = 0.55;
  private static final double NOT_WORSE = 1.02;
  private static final int NONE = -1;

  private final ConditionedSignal signal;
  private final TrackedSite site;
  private final WindowReader windows;
  private final CollisionGroups groups;
  private final CollisionSearch search;
  private final CollisionVerdict verdict;

  CollisionFitter(
      ConditionedSignal signal, TrackedSite site, WindowReader windows, SweepFitter fitter) {
    this.signal = signal;
    this.site = site;
    this.windows = windows;
    this.groups = new CollisionGroups(signal, site, windows);
    this.search = new CollisionSearch(fitter, signal.noiseUv(), signal.timeBase().lengthSamples(1));
    this.verdict = new CollisionVerdict(signal, fitter);
  }

  /**
   * The units with what could be solved: discharges may have been added and left out, and a unit
   * whose discharges are all better explained by others is no more.
   */
  List<UnitTrack> resolve(List<UnitTrack> units) {
    List<UnitRevision> revisions = units.stream().map(UnitRevision::new).toList();
    List<double[][]> usual = units.stream().map(UsualSizes::of).toList();
    for (Group group : groups.find(units)) {
      double length = group.to() - group.from();
      boolean solved =
          group.members().size() <= MOST_DISCHARGES
              && length < signal.timeBase().lengthSamples(LONGEST_US)
              && solve(units, usual, group, revisions, NONE);
      if (!solved) {
        doubtAbsences(units, group);
      }
    }
    List<UnitTrack> revised = new ArrayList<>(left(revisions));
    site.note(revised);
    return revised;
  }

  /** What is left of one unit's discharges when the others are to explain them. */
  record Spared(int explained, List<UnitTrack> others) {}

  /** Lets the others explain each discharge of a unit; nothing is changed by asking. */
  Spared spare(List<UnitTrack> units, int spare) {
    UnitTrack unit = units.get(spare);
    List<UnitRevision> revisions = units.stream().map(UnitRevision::new).toList();
    List<double[][]> usual = units.stream().map(UsualSizes::of).toList();
    int explained = 0;
    for (int d = 0; d < unit.discharges; d++) {
      explained += solve(units, usual, groups.over(units, spare, d), revisions, spare) ? 1 : 0;
    }
    List<UnitRevision> others = new ArrayList<>(revisions);
    others.remove(spare);
    return new Spared(explained, left(others));
  }

  private static List<UnitTrack> left(List<UnitRevision> revisions) {
    return revisions.stream().map(UnitRevision::apply).filter(u -> u.discharges > 0).toList();
  }

  private boolean solve(
      List<UnitTrack> units,
      List<double[][]> usual,
      Group group,
      List<UnitRevision> revisions,
      int without) {
    double from = group.from();
    double to = group.to();
    int longest = 0;
    for (UnitTrack unit : units) {
      for (PotentialShape shape : unit.shape) {
        longest = Math.max(longest, shape.length());
      }
      from = Math.min(from, group.from() - span(unit));
      to = Math.max(to, group.to() + span(unit));
    }
    for (Member member : group.members()) {
      UnitTrack unit = units.get(member.unit());
      for (double lag : unit.lag) {
        from = Math.min(from, unit.reference[member.discharge()] + lag);
        to = Math.max(to, unit.reference[member.discharge()] + lag);
      }
    }
    long start = (long) Math.floor(from) - longest;
    double[] window = new double[(int) Math.ceil(to - from) + 2 * longest];
    windows.read(group.segment(), start, window);
    site.takeOut(window, start, -1);
    List<Part> known = known(units, usual, group, start);
    for (Part part : known) {
      part.shape().addTo(window, part.position(), part.scale());
    }
    Explanation before = Explanation.asPlaced(known, window);
    List<Candidate> candidates = new ArrayList<>();
    for (int u = 0; u < units.size(); u++) {
      if (u != without) {
        candidates.add(candidate(units.get(u), u, usual.get(u), group, start, window.length));
      }
    }
    Explanation found = search.search(window, candidates, MOST_DISCHARGES);
    double noise = signal.noiseUv() * signal.noiseUv();
    if (found.energy() > NOT_WORSE * before.energy() + window.length * noise / 10) {
      return false;
    }
    for (int u = 0; u < units.size(); u++) {
      revise(units.get(u), u, group, found, start, revisions.get(u));
    }
    return true;
  }

  /** Where the signal is not explained, nothing can be called absent. */
  private void doubtAbsences(List<UnitTrack> units, Group group) {
    double near = signal.timeBase().lengthSamples(NEAR_US);
    for (Member member : group.members()) {
      UnitTrack unit = units.get(member.unit());
      int d = member.discharge();
      for (int p = 0; p < unit.potentials; p++) {
        double at = unit.reference[d] + unit.lag[p];
        boolean within = at > group.from() - near && at < group.to() + near;
        if (within && unit.presence[d][p] == Presence.ABSENT) {
          unit.presence[d][p] = Presence.UNCERTAIN;
        }
      }
    }
  }

  private static double span(UnitTrack unit) {
    return Arrays.stream(unit.lag).max().orElse(0) - Arrays.stream(unit.lag).min().orElse(0);
  }

  /** The potentials of the group's discharges that are there for sure. */
  private static List<Part> known(
      List<UnitTrack> units, List<double[][]> usual, Group group, long start) {
    List<Part> known = new ArrayList<>();
    for (Member member : group.members()) {
      UnitTrack unit = units.get(member.unit());
      int d = member.discharge();
      Volley volley =
          new Volley(member.unit(), unit, unit.reference[d] - start, usual.get(member.unit())[d]);
      for (int p = 0; p < unit.potentials; p++) {
        if (unit.isPresent(d, p)) {
          known.add(new Part(volley, p, unit.arrival[d][p] - start, unit.scale[d][p], 1));
        }
      }
    }
    return known;
  }

  /** Where a unit may fire: not sooner after another discharge than its rhythm allows. */
  private static Candidate candidate(
      UnitTrack unit, int u, double[][] usual, Group group, long start, int length) {
    int nearest = Math.min(unit.discharges - 1, unit.firstAtOrAfter(start + length / 2.0));
    boolean[] mayFire = new boolean[length];
    Arrays.fill(mayFire, true);
    List<Integer> own =
        group.members().stream().filter(m -> m.unit() == u).map(Member::discharge).toList();
    double apart = NEAREST_INTERVAL * unit.usualInterval(nearest);
    int d = unit.firstAtOrAfter(start - apart);
    for (; d < unit.discharges && unit.reference[d] < start + length + apart; d++) {
      if (!own.contains(d)) {
        int from = (int) Math.max(0, unit.reference[d] - apart - start);
        int to = (int) Math.min(length, unit.reference[d] + apart - start);
        if (from < to) {
          Arrays.fill(mayFire, from, to, false);
        }
      }
    }
    return new Candidate(u, unit, usual[nearest], mayFire, Math.max(1, own.size()));
  }

  private void revise(
      UnitTrack unit, int u, Group group, Explanation found, long start, UnitRevision revision) {
    List<Integer> own = new ArrayList<>();
    group.members().stream()
        .filter(member -> member.unit() == u)
        .forEach(member -> own.add(member.discharge()));
    found.parts().stream()
        .map(Part::volley)
        .filter(volley -> volley.unit() == u)
        .distinct()
        .forEach(
            volley -> {
              UnitRevision.Sweep sweep = verdict.judge(found, volley, start, group.segment());
              Integer same = nearest(unit, own, sweep.reference());
              own.remove(same);
              revision.put(same, sweep);
            });
    own.forEach(revision::drop);
  }

  private static @Nullable Integer nearest(
      UnitTrack unit, List<Integer> discharges, double reference) {
    Integer nearest = null;
    for (Integer d : discharges) {
      if (nearest == null
          || Math.abs(unit.reference[d] - reference)
              < Math.abs(unit.reference[nearest] - reference)) {
        nearest = d;
      }
    }
    return nearest;
  }
}
