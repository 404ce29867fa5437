package org.lonefibre.analysis.potential;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import org.lonefibre.analysis.conditioning.ConditionedSignal;
import org.lonefibre.signal.recording.Segment;

/**
 * Finds the stretches that are not explained: a potential that could not be judged, or signal that
 * is left when all that was found has been taken out; and the discharges that reach over them.
 */
final class CollisionGroups {

  private static final int BLOCK = 1 << 14;
  private static final double LEAST_LEFT = 6;
  private static final double TOLERATED_SHARE = 0.12;
  private static final double WORTH_SHARE = 0.15;
  private static final double NEAR_US = 350;

  private final ConditionedSignal signal;
  private final TrackedSite site;
  private final WindowReader windows;
  private final double near;

  /** A discharge of a unit, by their indices. */
  record Member(int unit, int discharge) {}

  /** Discharges to be explained together, and the stretch they must explain. */
  record Group(int segment, double from, double to, List<Member> members) {}

  private record Zone(int segment, double from, double to) {}

  CollisionGroups(ConditionedSignal signal, TrackedSite site, WindowReader windows) {
    this.signal = signal;
    this.site = site;
    this.windows = windows;
    this.near = signal.timeBase().lengthSamples(NEAR_US);
  }

  /** The groups in the order of time; no discharge belongs to two of them. */
  List<Group> find(List<UnitTrack> units) {
    List<Zone> zones = new ArrayList<>();
    for (UnitTrack unit : units) {
      addDoubtful(unit, zones);
    }
    addUnexplained(units, zones);
    zones.sort(Comparator.comparingInt(Zone::segment).thenComparingDouble(Zone::from));
    List<Group> groups = new ArrayList<>();
    for (Zone zone : zones) {
      List<Member> members = members(units, zone);
      int last = groups.size() - 1;
      if (last >= 0 && meets(groups.get(last), zone, members)) {
        Group before = groups.get(last);
        List<Member> all = new ArrayList<>(before.members);
        members.stream().filter(member -> !all.contains(member)).forEach(all::add);
        groups.set(
            last,
            new Group(zone.segment, before.from, Math.max(before.to, zone.to), List.copyOf(all)));
      } else {
        groups.add(new Group(zone.segment, zone.from, zone.to, members));
      }
    }
    return groups;
  }

  /** All that may lie on one discharge. */
  Group over(List<UnitTrack> units, int unit, int discharge) {
    UnitTrack track = units.get(unit);
    double from = track.reference[discharge] + Arrays.stream(track.lag).min().orElse(0) - near;
    double to = track.reference[discharge] + Arrays.stream(track.lag).max().orElse(0) + near;
    Zone zone = new Zone(track.segment[discharge], from, to);
    return new Group(zone.segment, from, to, members(units, zone));
  }

  private boolean meets(Group group, Zone zone, List<Member> members) {
    return group.segment == zone.segment
        && (zone.from < group.to + (members.isEmpty() || group.members.isEmpty() ? 8 : 2) * near
            || members.stream().anyMatch(group.members::contains));
  }

  private void addDoubtful(UnitTrack unit, List<Zone> zones) {
    for (int d = 0; d < unit.discharges; d++) {
      for (int p = 0; p < unit.potentials; p++) {
        if (unit.presence[d][p] == Presence.UNCERTAIN) {
          double at = unit.reference[d] + unit.lag[p];
          zones.add(new Zone(unit.segment[d], at - near, at + near));
        }
      }
    }
  }

  private void addUnexplained(List<UnitTrack> units, List<Zone> zones) {
    double smallest =
        units.stream()
            .mapToDouble(unit -> unit.shape[unit.leader()].peakToPeakUv())
            .min()
            .orElse(0);
    double least = Math.max(LEAST_LEFT * signal.noiseUv(), WORTH_SHARE * smallest);
    for (int s = 0; s < signal.segments().size(); s++) {
      Segment segment = signal.segments().get(s);
      for (long start = segment.firstSample(); start < segment.endSample(); start += BLOCK) {
        int length = (int) Math.min(BLOCK, segment.endSample() - start);
        double[] left = new double[length];
        windows.read(s, start, left);
        site.takeOut(left, start, -1);
        int first = firstBeyond(left, 0, least);
        double[] tolerated = first < length ? tolerated(units, s, start, length) : left;
        for (int k = first; k < length; k = firstBeyond(left, k + 1, least)) {
          if (Math.abs(left[k]) > least + tolerated[k]) {
            zones.add(new Zone(s, start + k - near / 2, start + k + near / 2));
            k += (int) (near / 2);
          }
        }
      }
    }
  }

  /** First sample from one on that lies farther from zero than a limit; the length if none does. */
  private static int firstBeyond(double[] left, int from, double limit) {
    int k = from;
    while (k < left.length && Math.abs(left[k]) <= limit) {
      k++;
    }
    return k;
  }

  /** What the variation of large potentials may leave at each sample. */
  private double[] tolerated(List<UnitTrack> units, int segment, long start, int length) {
    double[] tolerated = new double[length];
    for (UnitTrack unit : units) {
      double reach = Arrays.stream(unit.lag).map(Math::abs).max().orElse(0) + 4 * near;
      int d = unit.firstAtOrAfter(start - reach);
      for (; d < unit.discharges && unit.reference[d] < start + length + reach; d++) {
        for (int p = 0; p < unit.potentials && unit.segment[d] == segment; p++) {
          if (unit.isPresent(d, p)) {
            double share = TOLERATED_SHARE * unit.shape[p].peakToPeakUv() * unit.scale[d][p];
            int from = (int) Math.max(0, unit.arrival[d][p] - near - start);
            int to = (int) Math.min(length, unit.arrival[d][p] + near - start);
            for (int k = from; k < to; k++) {
              tolerated[k] += share;
            }
          }
        }
      }
    }
    return tolerated;
  }

  /** Discharges of which a potential may lie on a stretch. */
  private List<Member> members(List<UnitTrack> units, Zone zone) {
    List<Member> members = new ArrayList<>();
    for (int u = 0; u < units.size(); u++) {
      UnitTrack unit = units.get(u);
      double reach = Arrays.stream(unit.lag).map(Math::abs).max().orElse(0) + 4 * near;
      int d = unit.firstAtOrAfter(zone.from - reach);
      for (; d < unit.discharges && unit.reference[d] < zone.to + reach; d++) {
        if (unit.segment[d] == zone.segment && reachesOver(unit, d, zone)) {
          members.add(new Member(u, d));
        }
      }
    }
    return members;
  }

  private boolean reachesOver(UnitTrack unit, int d, Zone zone) {
    for (int p = 0; p < unit.potentials; p++) {
      double at = unit.reference[d] + unit.lag[p];
      if (unit.presence[d][p] != Presence.ABSENT && at > zone.from - near && at < zone.to + near) {
        return true;
      }
    }
    return false;
  }
}
