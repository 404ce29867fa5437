package org.lonefibre.model.fibre;

import java.util.ArrayList;
import java.util.List;

/**
 * How many fibres of one motor unit lie within a needle's reach, at random sites where at least one
 * does.
 *
 * <ul>
 *   <li>Fibres of a unit are strewn without order, {@value #FIBRES_PER_MM2} a mm2, and reach counts
 *       within the half disc before the core: a Poisson count without its zero. The density is an
 *       engineering choice that gives, for a reach of 0.3 mm, one fibre at about 70 % of sites and
 *       two at about 25 % as counted in muscle (Stalberg and Ekstedt 1973, as cited by Thiele and
 *       Stalberg 1974).
 *   <li>Whether their potentials fall together is not asked: all in reach count as one potential.
 *   <li>Thread rule: no state.
 * </ul>
 */
public final class FibresPerPotential {

  private static final double FIBRES_PER_MM2 = 5;

  private FibresPerPotential() {}

  /**
   * Shares of sites with 1, 2, ... fibres; the last holds that number and more, so that they sum to
   * 1.
   *
   * @param reachMm how far a fibre counts, above 0
   * @param most length of the list, 1 or more
   */
  public static List<Double> shares(double reachMm, int most) {
    if (!(reachMm > 0) || most < 1) {
      throw new IllegalArgumentException(
          "reach must be above 0 mm and the list 1 or more, found " + reachMm + " and " + most);
    }
    double mean = FIBRES_PER_MM2 * 0.5 * Math.PI * reachMm * reachMm;
    double some = -Math.expm1(-mean);
    double share = Math.exp(-mean);
    double left = 1;
    List<Double> shares = new ArrayList<>();
    for (int fibres = 1; fibres < most; fibres++) {
      share *= mean / fibres;
      shares.add(share / some);
      left -= share / some;
    }
    shares.add(Math.max(0, left));
    return shares;
  }
}
