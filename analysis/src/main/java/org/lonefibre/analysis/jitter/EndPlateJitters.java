package org.lonefibre.analysis.jitter;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * From three potentials or more of one unit: each end-plate's own jitter.
 *
 * <p>The jitter of a pair holds that of two end-plates: {@code J(A,B)^2 = J(A)^2 + J(B)^2}. With
 * three potentials or more there are as many pairs as end-plates or more, and the own jitters
 * follow by least squares on the squared mean consecutive differences of all pairs, followers among
 * themselves included; the 95 % interval from the contribution of each sweep, on a scale on which
 * its error does not depend on the jitter ({@link OwnSpread}). Computed from the definitions; exact
 * for Gaussian jitter, about 7 % too high for exponential.
 *
 * <ul>
 *   <li>Fewer than three potentials with enough common differences: no jitter, with the reason.
 *   <li>A square that comes out at zero or below: no jitter, but an upper end.
 *   <li>With a stimulus as trigger, the trigger's own jitter is the part of the latency common to
 *       all end-plates (axon).
 * </ul>
 *
 * <p>Thread rule: immutable, safe to share.
 */
public final class EndPlateJitters {

  /** Skewed latencies draw the value up: the lower end reaches further (by simulation). */
  private static final double LOW_RATIO = 0.987;

  private final JitterSettings settings;

  /** Separates pairs of at least {@code settings.minimumDifferences()} differences. */
  public EndPlateJitters(JitterSettings settings) {
    this.settings = settings;
  }

  /**
   * Separates the pairs of one unit.
   *
   * @return one entry a potential, the trigger first
   * @throws IllegalArgumentException if a number of a series is not finite, an error is negative,
   *     or sweep numbers do not rise
   */
  public List<OwnJitter> separate(UnitIntervals unit) {
    unit.followers().forEach(follower -> FiniteIntervals.require(follower.intervals()));
    PairDifferences pairs = new PairDifferences(unit.followers());
    List<Integer> usable = usable(pairs);
    List<PairDifferences.SquaredJitter> measured =
        usable.size() < 3
            ? List.of()
            : usable.stream().map(potential -> pairs.own(potential, usable)).toList();
    double[] squares = new double[measured.size()];
    for (int i = 0; i < squares.length; i++) {
      squares[i] = measured.get(i).value();
    }
    List<OwnJitter> found = new ArrayList<>();
    for (int potential = 0; potential < pairs.potentials(); potential++) {
      String name =
          potential == 0 ? unit.trigger() : unit.followers().get(potential - 1).potential();
      Double error =
          potential == 0
              ? unit.triggerErrorUs()
              : unit.followers().get(potential - 1).arrivalErrorUs();
      int place = usable.indexOf(potential);
      if (usable.size() < 3) {
        found.add(none(name, "fewer than three potentials are present together often enough"));
      } else if (place < 0) {
        found.add(none(name, "it is not present together with the others often enough"));
      } else {
        double[] ends = new OwnSpread(squares, place).ends(measured.get(place).reach());
        found.add(own(name, squares[place], ends, error));
      }
    }
    return List.copyOf(found);
  }

  /** The potentials left when the one with the poorest pair is dropped until all pairs serve. */
  private List<Integer> usable(PairDifferences pairs) {
    List<Integer> left = new ArrayList<>();
    for (int i = 0; i < pairs.potentials(); i++) {
      left.add(i);
    }
    while (left.size() >= 2) {
      int poorest = -1;
      int poorestTotal = Integer.MAX_VALUE;
      for (int a : left) {
        boolean poor = false;
        int total = 0;
        for (int b : left) {
          if (a != b) {
            poor |= pairs.count(a, b) < settings.minimumDifferences();
            total += pairs.count(a, b);
          }
        }
        if (poor && total < poorestTotal) {
          poorest = a;
          poorestTotal = total;
        }
      }
      if (poorest < 0) {
        return left;
      }
      left.remove(Integer.valueOf(poorest));
    }
    return List.of();
  }

  private static OwnJitter own(
      String name, double measured, double[] ends, @Nullable Double errorUs) {
    double error = errorUs == null ? 0 : DifferenceChain.GAUSSIAN_FACTOR * errorUs;
    double square = measured - error * error;
    double low = LOW_RATIO * Math.sqrt(Math.max(0, ends[0] - error * error));
    double high = Math.sqrt(Math.max(0, ends[1] - error * error));
    return square <= 0
        ? new OwnJitter(
            name, null, null, high, "its own jitter is too small beside the others to be told")
        : new OwnJitter(name, Math.sqrt(square), low, high, null);
  }

  private static OwnJitter none(String name, String reason) {
    return new OwnJitter(name, null, null, null, reason);
  }
}
