package org.lonefibre.analysis.potential;

/**
 * Shapes that overlap and the arrivals they give, improved in turn until they agree. Taken in turn
 * alone, a potential that lies in the tail of another comes to its full movement slowly: each turn
 * gives back a part of what the tail has taken. So after every two turns the way they point is
 * followed farther, the more alike the two were the farther (squared extrapolation of fixed points:
 * Varadhan and Roland 2008).
 *
 * <ul>
 *   <li>Thread rule: keeps nothing between calls.
 * </ul>
 */
final class OverlapSettling {

  private static final int PLAIN = 2;
  private static final double FARTHEST = 15;

  /** Settled once what may still come is this share of what noise leaves unknown of the shapes. */
  private static final double SETTLED = 0.2;

  private final ShapeSeparator separator;
  private final SweepFitter fitter;
  private final double noiseUv;

  OverlapSettling(ShapeSeparator separator, SweepFitter fitter, double noiseUv) {
    this.separator = separator;
    this.fitter = fitter;
    this.noiseUv = noiseUv;
  }

  /** At most so many pairs of turns; at last all discharges are placed. */
  void settle(UnitTrack unit, int u, int pairsOfTurns) {
    OverlappingSweeps sweeps = separator.sweeps(unit, u);
    int every = separator.every(unit);
    ShapePrior.Weight[] weights = separator.weights(unit);
    for (int k = 0; k < PLAIN; k++) {
      turn(unit, u, sweeps, weights, every);
    }
    boolean settled = false;
    for (int k = 0; k < pairsOfTurns && !settled; k++) {
      weights = separator.weights(unit);
      double[][] first = samples(unit);
      turn(unit, u, sweeps, weights, every);
      double[][] second = samples(unit);
      turn(unit, u, sweeps, weights, every);
      settled = leap(unit, first, second, samples(unit));
      fitter.fit(unit, u, every);
    }
    turn(unit, u, sweeps, weights, 1);
  }

  private void turn(
      UnitTrack unit, int u, OverlappingSweeps sweeps, ShapePrior.Weight[] weights, int every) {
    sweeps.separate(unit, weights);
    fitter.fit(unit, u, every);
    unit.normalise();
  }

  private static double[][] samples(UnitTrack unit) {
    double[][] samples = new double[unit.potentials][];
    for (int p = 0; p < unit.potentials; p++) {
      samples[p] = unit.shape[p].samples();
    }
    return samples;
  }

  /** Follows the way of two turns farther; whether little was left of it. */
  private boolean leap(UnitTrack unit, double[][] first, double[][] second, double[][] third) {
    double step = 0;
    double bend = 0;
    int count = 0;
    for (int p = 0; p < first.length; p++) {
      for (int k = 0; k < first[p].length; k++) {
        double one = second[p][k] - first[p][k];
        double less = third[p][k] - second[p][k] - one;
        step += one * one;
        bend += less * less;
        count++;
      }
    }
    double far = Math.min(FARTHEST, Math.max(1, Math.sqrt(step / Math.max(bend, 1e-300))));
    for (int p = 0; p < first.length; p++) {
      double[] samples = new double[first[p].length];
      for (int k = 0; k < samples.length; k++) {
        double one = second[p][k] - first[p][k];
        double less = third[p][k] - second[p][k] - one;
        samples[k] = first[p][k] + 2 * far * one + far * far * less;
      }
      unit.shape[p] = new PotentialShape(samples, unit.shape[p].origin());
    }
    double known = noiseUv * Math.sqrt((double) count / unit.discharges);
    return far * Math.sqrt(step) < SETTLED * known;
  }
}
