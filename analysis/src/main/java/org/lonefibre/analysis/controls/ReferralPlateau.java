package org.lonefibre.analysis.controls;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * A limit extrapolated from consecutive ordinary referrals, as published for other nerve tests
 * (Jabre et al. 2015, from memory): values in order rise slowly where most people lie, and steeply
 * where disease begins. Mean + 2 SD of the plateau.
 *
 * <ol>
 *   <li>The rise over a window of a tenth of the values gives the slope at each rank.
 *   <li>The plateau runs from the flattest place as far as the slope stays under {@value #STEEPER}
 *       times its least: where the density falls to a seventh, two SD of a Gaussian (engineering
 *       choice).
 * </ol>
 *
 * <ul>
 *   <li>Cutting the tails narrows the SD: the limit of a pure Gaussian comes out about a quarter of
 *       an SD low, which is said.
 *   <li>Assumes that the referrals are consecutive, that most of them have healthy end-plates, and
 *       that the diseased lie apart. Where the plateau holds under half of them, or there are under
 *       {@value #FEWEST}, it is marked as failing.
 * </ul>
 *
 * @param referrals number of values
 * @param onPlateau those on the plateau
 * @param limitUs mean + 2 SD of the plateau
 * @param warnings always at least one
 */
public record ReferralPlateau(int referrals, int onPlateau, double limitUs, List<String> warnings) {

  private static final double STEEPER = 7.4;
  private static final int FEWEST = 100;
  private static final int LEAST = 20;

  /** Copies the warnings. */
  public ReferralPlateau {
    warnings = List.copyOf(warnings);
  }

  /**
   * The plateau of a series.
   *
   * @throws IllegalArgumentException if there are fewer than {@value #LEAST} values
   */
  public static ReferralPlateau of(double[] valuesUs) {
    if (valuesUs.length < LEAST) {
      throw new IllegalArgumentException(
          "a plateau must have " + LEAST + " referrals at least, found " + valuesUs.length);
    }
    double[] sorted = valuesUs.clone();
    Arrays.sort(sorted);
    int n = sorted.length;
    int window = Math.max(4, n / 10);
    double[] rises = new double[n - window];
    int flattest = 0;
    for (int i = 0; i < rises.length; i++) {
      rises[i] = sorted[i + window] - sorted[i];
      flattest = rises[i] < rises[flattest] ? i : flattest;
    }
    double most = STEEPER * Math.max(rises[flattest], 1e-9);
    int first = flattest;
    while (first > 0 && rises[first - 1] <= most) {
      first--;
    }
    int last = flattest;
    while (last < rises.length - 1 && rises[last + 1] <= most) {
      last++;
    }
    double[] plateau = Arrays.copyOfRange(sorted, first, Math.min(n, last + window));
    List<String> warnings = new ArrayList<>();
    warnings.add(
        "extrapolated from referrals, not from healthy volunteers: holds only if they are"
            + " consecutive, most have healthy end-plates and the diseased lie apart; the tails cut"
            + " off make it about a quarter of an SD low");
    if (n < FEWEST) {
      warnings.add(ControlLimits.text("%d referrals; 100 or more are advised", n));
    }
    if (2 * plateau.length < n) {
      warnings.add(
          ControlLimits.text(
              "fails: the plateau holds %d of %d, under half; the groups do not separate, or most"
                  + " are not healthy",
              plateau.length, n));
    }
    if (plateau.length == n) {
      warnings.add(
          "no upper end of the plateau was found: nobody lies apart, or nobody is healthy");
    }
    return new ReferralPlateau(
        n, plateau.length, UpperLimit.mean(plateau) + 2 * UpperLimit.sd(plateau), warnings);
  }
}
