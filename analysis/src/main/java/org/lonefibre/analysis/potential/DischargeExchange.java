package org.lonefibre.analysis.potential;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import org.lonefibre.analysis.potential.PatternMisfit.Usual;

/**
 * Gives discharges to the unit that explains them best, where potentials of two units are alike:
 * the pattern of the other must leave clearly less than that of the unit they were taken for, which
 * explains them worse than its others, and the other must have been able to fire then. Two units
 * that fired soon after one another may have been taken for each other ({@link DischargeSwap}).
 */
final class DischargeExchange {

  private static final double SURELY_BETTER = 25;
  private static final int FEWEST = 12;

  private final TrackedSite site;
  private final SweepFitter fitter;
  private final FreedStretches stretches;
  private final DischargeSwap swap;

  /** A discharge that another unit may explain better: the unit, and where it then fired. */
  private record Move(int discharge, int unit, double reference) {}

  DischargeExchange(TrackedSite site, SweepFitter fitter, FreedStretches stretches) {
    this.site = site;
    this.fitter = fitter;
    this.stretches = stretches;
    this.swap = new DischargeSwap(stretches);
  }

  /** The units after the exchange, in the same order; the list itself if nothing is moved. */
  List<UnitTrack> exchange(List<UnitTrack> units) {
    List<UnitTrack> changed = new ArrayList<>(units);
    boolean any = false;
    for (int u = 0; u < changed.size(); u++) {
      List<Move> moves = moves(changed, u);
      any |= !moves.isEmpty();
      apply(changed, u, moves);
    }
    return swapEach(changed) || any ? changed : units;
  }

  private boolean swapEach(List<UnitTrack> units) {
    boolean any = false;
    for (int u = 0; u < units.size(); u++) {
      for (int v = 0; v < units.size(); v++) {
        if (v != u && swap.swap(units, u, v)) {
          any = true;
          site.note(units);
          fitAnew(units, IntStream.of(u, v));
        }
      }
    }
    return any;
  }

  private List<Move> moves(List<UnitTrack> units, int u) {
    UnitTrack unit = units.get(u);
    List<Move> moves = new ArrayList<>();
    if (units.size() < 2 || unit.discharges < FEWEST) {
      return moves;
    }
    List<Usual> usual = units.stream().map(Usual::of).toList();
    double typical = Double.NaN;
    for (int d = 0; d < unit.discharges; d++) {
      List<Move> rivals = rivals(units, u, d);
      if (!rivals.isEmpty()) {
        typical = Double.isNaN(typical) ? stretches.typical(units, usual.get(u), u) : typical;
        better(units, usual, u, rivals, typical).ifPresent(moves::add);
      }
    }
    return moves;
  }

  private Optional<Move> better(
      List<UnitTrack> units, List<Usual> usual, int u, List<Move> rivals, double typical) {
    int d = rivals.get(0).discharge();
    FreedStretches.Stretch stretch = stretches.around(units, u, d);
    double own = stretch.misfit(usual.get(u), units.get(u).reference[d]);
    Move best = null;
    double least = own - SURELY_BETTER;
    for (Move move : own > typical + SURELY_BETTER ? rivals : List.<Move>of()) {
      double cost = stretch.misfit(usual.get(move.unit()), move.reference());
      if (cost < least) {
        least = cost;
        best = move;
      }
    }
    return Optional.ofNullable(best);
  }

  /** Other units that may have fired instead. */
  private static List<Move> rivals(List<UnitTrack> units, int u, int d) {
    List<Move> rivals = new ArrayList<>();
    for (int v = 0; v < units.size(); v++) {
      UnitTrack other = units.get(v);
      if (v != u && other.discharges >= FEWEST) {
        for (double reference : AlikePlaces.of(units.get(u), d, other)) {
          if (other.mayFireAt(reference)) {
            rivals.add(new Move(d, v, reference));
          }
        }
      }
    }
    return rivals;
  }

  private void apply(List<UnitTrack> units, int u, List<Move> moves) {
    UnitTrack unit = units.get(u);
    List<Move> made = new ArrayList<>();
    for (Move move : moves) {
      UnitTrack to = units.get(move.unit());
      // Of two that would be one discharge of the other unit, only the first goes.
      if (to.mayFireAt(move.reference())) {
        UnitTrack.Place place =
            new UnitTrack.Place(move.reference(), unit.segment[move.discharge()]);
        units.set(move.unit(), to.withMore(List.of(place)));
        made.add(move);
      }
    }
    if (made.isEmpty()) {
      return;
    }
    units.set(u, unit.without(made.stream().mapToInt(Move::discharge).toArray()));
    site.note(units);
    fitAnew(units, made.stream().mapToInt(Move::unit).distinct().sorted());
  }

  private void fitAnew(List<UnitTrack> units, IntStream which) {
    which.forEach(
        v -> {
          fitter.fit(units.get(v), v);
          site.note(units);
        });
  }
}
