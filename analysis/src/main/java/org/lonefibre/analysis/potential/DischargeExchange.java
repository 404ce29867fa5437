package org.lonefibre.analysis.potential;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import org.lonefibre.analysis.conditioning.ConditionedSignal;
import org.lonefibre.analysis.potential.PatternMisfit.Usual;
import org.lonefibre.signal.robust.RobustStatistics;

/**
 * Gives discharges to the unit that explains them best, where potentials of two units are alike:
 * the pattern of the other must leave clearly less than that of the unit they were taken for, which
 * explains them worse than its others, and the other must have been able to fire then.
 */
final class DischargeExchange {

  private static final double ALIKE = 2;
  private static final double SURELY_BETTER = 25;
  private static final int FEWEST = 12;
  private static final int ASKED = 50;

  private final WindowReader windows;
  private final TrackedSite site;
  private final SweepFitter fitter;
  private final PatternMisfit misfit;

  /** A discharge that another unit may explain better: the unit, and where it then fired. */
  private record Move(int discharge, int unit, double reference) {}

  DischargeExchange(
      ConditionedSignal signal, TrackedSite site, WindowReader windows, SweepFitter fitter) {
    this.windows = windows;
    this.site = site;
    this.fitter = fitter;
    this.misfit = new PatternMisfit(signal, fitter);
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
    return any ? changed : units;
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
        typical = Double.isNaN(typical) ? typical(units, usual, u) : typical;
        better(units, usual, u, rivals, typical).ifPresent(moves::add);
      }
    }
    return moves;
  }

  /** What a unit usually leaves of its own discharges. */
  private double typical(List<UnitTrack> units, List<Usual> usual, int u) {
    UnitTrack unit = units.get(u);
    int step = Math.max(1, unit.discharges / ASKED);
    return RobustStatistics.median(
        IntStream.range(0, unit.discharges)
            .filter(d -> d % step == 0)
            .mapToDouble(d -> new Stretch(units, u, d).misfit(usual.get(u), unit.reference[d]))
            .toArray());
  }

  private Optional<Move> better(
      List<UnitTrack> units, List<Usual> usual, int u, List<Move> rivals, double typical) {
    int d = rivals.get(0).discharge();
    Stretch stretch = new Stretch(units, u, d);
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

  /** Where another unit may have fired so that one of its potentials is what was seen. */
  private static List<Move> rivals(List<UnitTrack> units, int u, int d) {
    UnitTrack unit = units.get(u);
    List<Move> rivals = new ArrayList<>();
    for (int v = 0; v < units.size(); v++) {
      UnitTrack other = units.get(v);
      for (int p = 0; v != u && other.discharges >= FEWEST && p < unit.potentials; p++) {
        for (int q = 0; unit.isPresent(d, p) && q < other.potentials; q++) {
          double ratio = unit.shape[p].energy() / other.shape[q].energy();
          double reference = unit.arrival[d][p] - other.lag[q];
          if (ratio < ALIKE && ratio > 1 / ALIKE && other.mayFireAt(reference)) {
            rivals.add(new Move(d, v, reference));
          }
        }
      }
    }
    return rivals;
  }

  /** The signal in which any unit could have fired instead, all other discharges taken out. */
  private final class Stretch {

    private final long start;
    private final double[] window;

    private Stretch(List<UnitTrack> units, int u, int d) {
      UnitTrack unit = units.get(u);
      double span = 0;
      double margin = 0;
      for (UnitTrack one : units) {
        span = Math.max(span, latest(one) - earliest(one));
        for (int p = 0; p < one.potentials; p++) {
          margin = Math.max(margin, one.shape[p].length() + fitter.range(one, p));
        }
      }
      double from = unit.reference[d] + earliest(unit) - span - margin;
      double to = unit.reference[d] + latest(unit) + span + margin;
      this.start = (long) Math.floor(from);
      this.window = new double[(int) Math.ceil(to - from)];
      windows.read(unit.segment[d], start, window);
      site.takeOut(window, start, u);
      int e = unit.firstAtOrAfter(from - margin - latest(unit));
      for (; e < unit.discharges && unit.reference[e] + earliest(unit) < to + margin; e++) {
        for (int p = 0; e != d && p < unit.potentials; p++) {
          if (unit.isPresent(e, p)) {
            unit.shape[p].addTo(window, unit.arrival[e][p] - start, -unit.scale[e][p]);
          }
        }
      }
    }

    private double misfit(Usual usual, double reference) {
      return misfit.of(usual, window, start, reference);
    }
  }

  private static double earliest(UnitTrack unit) {
    return Arrays.stream(unit.lag).min().orElse(0);
  }

  private static double latest(UnitTrack unit) {
    return Arrays.stream(unit.lag).max().orElse(0);
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
    made.stream()
        .mapToInt(Move::unit)
        .distinct()
        .sorted()
        .forEach(
            v -> {
              fitter.fit(units.get(v), v);
              site.note(units);
            });
  }
}
