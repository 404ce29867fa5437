package org.lonefibre.analysis.potential;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.lonefibre.analysis.potential.PatternMisfit.Usual;

/**
 * Two units with potentials alike that fired soon after one another, each taken for the other. Such
 * a discharge cannot move alone, as its own unit would then have fired twice too soon: both change
 * units if together they are explained clearly better.
 *
 * <ul>
 *   <li>Thread rule: one thread at a time.
 * </ul>
 */
final class DischargeSwap {

  /** By how much the two must be explained better, as a sum of squares over the noise's. */
  private static final double SURELY_BETTER = 25;

  private static final int FEWEST = 12;

  private final FreedStretches stretches;

  DischargeSwap(FreedStretches stretches) {
    this.stretches = stretches;
  }

  /** Changes what was taken for each other of two units of a list; whether there was any. */
  boolean swap(List<UnitTrack> units, int u, int v) {
    UnitTrack one = units.get(u);
    UnitTrack other = units.get(v);
    if (one.discharges < FEWEST || other.discharges < FEWEST) {
      return false;
    }
    Leavers fromOne = new Leavers(units, u, v);
    Leavers fromOther = new Leavers(units, v, u);
    int last = -1;
    for (int d = 0; d < one.discharges; d++) {
      int e = rival(one, d, other);
      if (e > last && isFreeBut(one, d, AlikePlaces.of(other, e, one))) {
        Leaver there = fromOne.ask(d);
        Leaver back = fromOther.ask(e);
        if (there.gain() + back.gain() > SURELY_BETTER) {
          fromOne.leaves(there);
          fromOther.leaves(back);
          last = e;
        }
      }
    }
    if (last < 0) {
      return false;
    }
    units.set(u, fromOne.without().withMore(fromOther.places()));
    units.set(v, fromOther.without().withMore(fromOne.places()));
    return true;
  }

  /** The only discharge of another unit that keeps it from having fired instead; -1 if not one. */
  private static int rival(UnitTrack unit, int d, UnitTrack other) {
    int[] hindrances =
        Arrays.stream(AlikePlaces.of(unit, d, other))
            .mapToObj(other::hindrances)
            .flatMapToInt(Arrays::stream)
            .distinct()
            .toArray();
    return hindrances.length == 1 ? hindrances[0] : -1;
  }

  /** Whether a unit without one of its discharges may have fired at each of some places. */
  private static boolean isFreeBut(UnitTrack unit, int d, double[] places) {
    return Arrays.stream(places)
        .allMatch(place -> Arrays.stream(unit.hindrances(place)).allMatch(h -> h == d));
  }

  /**
   * A discharge that may leave its unit.
   *
   * @param gain what the other unit explains better
   * @param reference where the other unit then fired
   */
  private record Leaver(int discharge, double gain, double reference) {}

  /** The discharges that leave a unit for another. */
  private final class Leavers {

    private final List<UnitTrack> units;
    private final int u;
    private final UnitTrack unit;
    private final UnitTrack other;
    private final Usual usual;
    private final Usual usualOfOther;
    private final List<Leaver> gone = new ArrayList<>();

    private Leavers(List<UnitTrack> units, int u, int v) {
      this.units = units;
      this.u = u;
      this.unit = units.get(u);
      this.other = units.get(v);
      this.usual = Usual.of(unit);
      this.usualOfOther = Usual.of(other);
    }

    private Leaver ask(int d) {
      FreedStretches.Stretch stretch = stretches.around(units, u, d);
      double own = stretch.misfit(usual, unit.reference[d]);
      Leaver best = new Leaver(d, Double.NEGATIVE_INFINITY, unit.reference[d]);
      for (double place : AlikePlaces.of(unit, d, other)) {
        double gain = own - stretch.misfit(usualOfOther, place);
        best = gain > best.gain() ? new Leaver(d, gain, place) : best;
      }
      return best;
    }

    private void leaves(Leaver leaver) {
      gone.add(leaver);
    }

    private UnitTrack without() {
      return unit.without(gone.stream().mapToInt(Leaver::discharge).toArray());
    }

    /** Where the other unit fired. */
    private List<UnitTrack.Place> places() {
      return gone.stream()
          .map(leaver -> new UnitTrack.Place(leaver.reference(), unit.segment[leaver.discharge()]))
          .toList();
    }
  }
}
