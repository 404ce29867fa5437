package org.lonefibre.analysis.potential;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.lonefibre.analysis.conditioning.ConditionedSignal;
import org.lonefibre.signal.robust.RobustStatistics;

/**
 * Solves discharges of different units that lie on each other. Fitted one unit after the other,
 * each is disturbed by the other and neither can be taken out; fitted together, both are placed, or
 * the sweep stays uncertain if even that leaves too much of the signal.
 */
final class CollisionFitter {

  private static final int ROUNDS = 3;
  private static final int MOST_DISCHARGES = 4;
  private static final double REACH_US = 20_000;
  private static final double SIZE_TOLERANCE = 0.3;
  private static final double LEAST_MISFIT = 2;
  private static final double USUAL_MISFITS = 4;

  private final ConditionedSignal signal;
  private final TrackedSite site;
  private final WindowReader windows;
  private final SweepFitter fitter;
  private final double reach;

  /** One discharge of one unit that takes part in a collision. */
  private record Member(UnitTrack unit, int discharge, double[] usual) {}

  /** One potential of a member, with where it should lie. */
  private record Part(Member member, int potential, double expected) {

    UnitTrack unit() {
      return member.unit;
    }

    Presence presence() {
      return unit().presence[member.discharge][potential];
    }

    double usual() {
      return member.usual[potential];
    }
  }

  CollisionFitter(
      ConditionedSignal signal, TrackedSite site, WindowReader windows, SweepFitter fitter) {
    this.signal = signal;
    this.site = site;
    this.windows = windows;
    this.fitter = fitter;
    this.reach = signal.timeBase().lengthSamples(REACH_US);
  }

  /** Solves what can be solved; arrivals and presence are changed in place. */
  void resolve(List<UnitTrack> units) {
    List<double[][]> usual = units.stream().map(SweepFitter::usualScales).toList();
    for (int u = 0; u < units.size(); u++) {
      UnitTrack unit = units.get(u);
      for (int d = 0; d < unit.discharges; d++) {
        if (Arrays.asList(unit.presence[d]).contains(Presence.UNCERTAIN)) {
          List<Member> members = members(units, usual, u, d);
          if (members.size() > 1 && members.size() <= MOST_DISCHARGES && solve(members)) {
            site.note(units);
          }
        }
      }
    }
  }

  /** The discharge and those of other units that reach over one of its uncertain potentials. */
  private List<Member> members(List<UnitTrack> units, List<double[][]> usual, int u, int d) {
    UnitTrack unit = units.get(u);
    List<Member> members = new ArrayList<>();
    members.add(new Member(unit, d, usual.get(u)[d]));
    for (int v = 0; v < units.size(); v++) {
      UnitTrack other = units.get(v);
      int from = v == u ? other.discharges : other.firstAtOrAfter(unit.reference[d] - reach);
      for (int e = from; e < other.discharges; e++) {
        if (other.reference[e] > unit.reference[d] + reach) {
          break;
        }
        if (other.segment[e] == unit.segment[d] && reachesOver(unit, d, other, e)) {
          members.add(new Member(other, e, usual.get(v)[e]));
        }
      }
    }
    return members;
  }

  private static boolean reachesOver(UnitTrack unit, int d, UnitTrack other, int e) {
    for (int p = 0; p < unit.potentials; p++) {
      for (int q = 0; unit.presence[d][p] == Presence.UNCERTAIN && q < other.potentials; q++) {
        double distance = unit.reference[d] + unit.lag[p] - other.reference[e] - other.lag[q];
        if (other.presence[e][q] != Presence.ABSENT
            && Math.abs(distance) < unit.shape[p].length()) {
          return true;
        }
      }
    }
    return false;
  }

  private boolean solve(List<Member> members) {
    List<Part> parts = new ArrayList<>();
    for (Member member : members) {
      UnitTrack unit = member.unit;
      double anchor = anchor(member);
      for (int p = 0; p < unit.potentials; p++) {
        if (unit.presence[member.discharge][p] != Presence.ABSENT) {
          parts.add(new Part(member, p, anchor + unit.lag[p]));
        }
      }
    }
    int longest =
        parts.stream().mapToInt(part -> part.unit().shape[part.potential].length()).max().orElse(0);
    int margin = 2 * longest;
    double first = parts.stream().mapToDouble(Part::expected).min().orElse(0);
    double last = parts.stream().mapToDouble(Part::expected).max().orElse(0);
    long start = (long) Math.floor(first) - margin;
    double[] window = new double[(int) Math.ceil(last - first) + 2 * margin];
    Member leading = members.get(0);
    windows.read(leading.unit.segment[leading.discharge], start, window);
    site.takeOut(window, start, -1);
    for (Part part : parts) {
      if (part.presence() == Presence.PRESENT) {
        putBack(part, window, start);
      }
    }
    JointFit joint = fit(parts, window, start);
    double[] misfit = new double[parts.size()];
    for (int i = 0; i < misfit.length; i++) {
      misfit[i] = fitter.misfit(joint, i);
      if (!isAcceptable(parts.get(i), joint, i, start, misfit[i])) {
        return false;
      }
    }
    for (int i = 0; i < misfit.length; i++) {
      Part part = parts.get(i);
      int d = part.member.discharge;
      part.unit().presence[d][part.potential] = Presence.PRESENT;
      part.unit().arrival[d][part.potential] = joint.positionSamples(i) + start;
      part.unit().scale[d][part.potential] = joint.scaleRatio(i);
      part.unit().widening[d][part.potential] = joint.widening(i);
      part.unit().misfit[d][part.potential] = misfit[i];
    }
    return true;
  }

  private static void putBack(Part part, double[] window, long start) {
    int d = part.member.discharge;
    UnitTrack unit = part.unit();
    unit.shape[part.potential].addTo(
        window, unit.arrival[d][part.potential] - start, unit.scale[d][part.potential]);
  }

  /** Lag 0 by the potentials that are there; by the discharge itself if none is sure. */
  private static double anchor(Member member) {
    UnitTrack unit = member.unit;
    int d = member.discharge;
    double[] offsets = new double[unit.potentials];
    int n = 0;
    for (int p = 0; p < unit.potentials; p++) {
      if (unit.isPresent(d, p)) {
        offsets[n++] = unit.arrival[d][p] - unit.lag[p];
      }
    }
    return n == 0 ? unit.reference[d] : RobustStatistics.median(Arrays.copyOf(offsets, n));
  }

  /**
   * Uncertain parts are looked for in turn, what the others explain taken out; then all at once.
   */
  private JointFit fit(List<Part> parts, double[] window, long start) {
    PotentialShape[] shapes =
        parts.stream()
            .map(part -> part.unit().shape[part.potential])
            .toArray(PotentialShape[]::new);
    double[] at = new double[shapes.length];
    for (int i = 0; i < at.length; i++) {
      Part part = parts.get(i);
      boolean known = part.presence() == Presence.PRESENT;
      at[i] =
          (known ? part.unit().arrival[part.member.discharge][part.potential] : part.expected)
              - start;
    }
    for (int round = 0; round < ROUNDS; round++) {
      for (int i = 0; i < at.length; i++) {
        if (parts.get(i).presence() == Presence.PRESENT) {
          continue;
        }
        double[] left = window.clone();
        for (int j = 0; j < at.length; j++) {
          if (j != i) {
            shapes[j].addTo(left, at[j], -parts.get(j).usual());
          }
        }
        at[i] =
            fitter.scan(
                parts.get(i).unit(), parts.get(i).potential, left, parts.get(i).expected - start);
      }
    }
    JointFit joint = new JointFit(shapes);
    for (int i = 0; i < at.length; i++) {
      joint.start(i, at[i], parts.get(i).usual());
    }
    joint.fit(window, signal.noiseUv());
    return joint;
  }

  private boolean isAcceptable(Part part, JointFit joint, int i, long start, double misfit) {
    double size = joint.scaleRatio(i) / part.usual();
    double off = Math.abs(joint.positionSamples(i) + start - part.expected);
    double limit =
        Math.max(
            LEAST_MISFIT, USUAL_MISFITS * Math.max(1, part.unit().usualMisfit(part.potential)));
    return Math.abs(size - 1) < SIZE_TOLERANCE
        && off <= fitter.range(part.unit(), part.potential)
        && misfit <= limit;
  }
}
