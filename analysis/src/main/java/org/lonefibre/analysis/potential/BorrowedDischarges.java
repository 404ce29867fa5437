package org.lonefibre.analysis.potential;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.lonefibre.analysis.potential.PatternMisfit.Usual;

/**
 * Discharges that a unit took from another one, alike, for as long as it was silent itself: the two
 * never fire together, sizes near by are the other's, and both explain each of them equally well.
 * Only all together tell: without them the unit is more even, and the other no less ({@link
 * Unevenness}).
 *
 * <ul>
 *   <li>Thread rule: one thread at a time.
 * </ul>
 */
final class BorrowedDischarges {

  /** By how much the other may explain one of them worse, as a sum of squares over the noise's. */
  private static final double AS_GOOD = 25;

  private static final int FEWEST = 20;

  /** In natural units of information. */
  private static final double LEAST_GAIN = 30;

  private final TrackedSite site;
  private final SweepFitter fitter;
  private final FreedStretches stretches;
  private final Unevenness unevenness;

  BorrowedDischarges(
      TrackedSite site, SweepFitter fitter, FreedStretches stretches, Unevenness unevenness) {
    this.site = site;
    this.fitter = fitter;
    this.stretches = stretches;
    this.unevenness = unevenness;
  }

  /** A discharge, and where the other unit fired if it is that one's. */
  private record Loan(int discharge, UnitTrack.Place place) {}

  /** Gives one unit of a list back what another took from it; whether there was any. */
  boolean giveBack(List<UnitTrack> units, int from, int to) {
    UnitTrack unit = units.get(from);
    UnitTrack owner = units.get(to);
    if (unit.discharges < 2 * FEWEST || owner.discharges < 2 * FEWEST) {
      return false;
    }
    List<Loan> loans = loans(units, from, to);
    if (loans.size() < FEWEST || loans.size() > unit.discharges - FEWEST) {
      return false;
    }
    List<UnitTrack> after = new ArrayList<>(units);
    after.set(from, unit.without(loans.stream().mapToInt(Loan::discharge).toArray()));
    after.set(to, owner.withMore(loans.stream().map(Loan::place).toList()).copy());
    site.note(after);
    fitter.fit(after.get(to), to);
    boolean isBetter = both(units, from, to) - both(after, from, to) >= LEAST_GAIN;
    List<UnitTrack> kept = isBetter ? after : units;
    units.set(from, kept.get(from));
    units.set(to, kept.get(to));
    site.note(units);
    return isBetter;
  }

  private double both(List<UnitTrack> units, int one, int other) {
    return unevenness.of(units.get(one)) + unevenness.of(units.get(other));
  }

  private List<Loan> loans(List<UnitTrack> units, int from, int to) {
    UnitTrack unit = units.get(from);
    Usual usual = Usual.of(unit);
    Usual owners = Usual.of(units.get(to));
    List<Loan> loans = new ArrayList<>();
    for (int d = 0; d < unit.discharges; d++) {
      double[] places =
          Arrays.stream(AlikePlaces.of(unit, d, units.get(to)))
              .filter(units.get(to)::mayFireAt)
              .toArray();
      if (places.length > 0) {
        FreedStretches.Stretch stretch = stretches.around(units, from, d);
        double most = stretch.misfit(usual, unit.reference[d]) + AS_GOOD;
        int discharge = d;
        best(stretch, owners, places, most)
            .map(place -> new Loan(discharge, new UnitTrack.Place(place, unit.segment[discharge])))
            .ifPresent(loans::add);
      }
    }
    return loans;
  }

  /** The place that leaves least, if less than what is allowed. */
  private static Optional<Double> best(
      FreedStretches.Stretch stretch, Usual usual, double[] places, double most) {
    Double best = null;
    double least = most;
    for (double place : places) {
      double cost = stretch.misfit(usual, place);
      if (cost < least) {
        least = cost;
        best = place;
      }
    }
    return Optional.ofNullable(best);
  }
}
