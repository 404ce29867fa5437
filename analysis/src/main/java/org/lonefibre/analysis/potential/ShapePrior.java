package org.lonefibre.analysis.potential;

import java.util.HashMap;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.conditioning.ConditionedSignal;

/**
 * What is known of a shape before its neighbours are told apart from it: that it belongs to one
 * fibre ({@link FibreFamily}), as closely as its steep part does, and that what it has beside that
 * dies off away from the arrival as the high-pass lets it.
 *
 * <p>A fixed and a moving copy of a neighbour look together much like a copy that moves a little
 * less, so the data alone hardly decide how much of the neighbour lies in a tail; a tail that must
 * suit the steep part does.
 *
 * <ul>
 *   <li>Thread rule: one instance a thread; the family is made when it is first needed.
 * </ul>
 */
final class ShapePrior {

  private static final double CORE_US = 250;
  private static final double JUDGED_US = 350;
  private static final double LEAST_SHARE = 0.002;
  private static final double LEAST_MISFIT = 0.01;
  private static final double STRICT_MISFIT = 0.003;

  /** Share of the weight on a shape's own size that is taken off it. */
  private static final double SIZE_FREE = 0.3;

  private final ConditionedSignal signal;
  private @Nullable FibreFamily family;
  private @Nullable KnownSystem strict;

  /** What the family leaves of steep parts, by their first sample and their length. */
  private final Map<Long, KnownSystem> steep = new HashMap<>();

  ShapePrior(ConditionedSignal signal) {
    this.signal = signal;
  }

  /** The weight of this knowledge against the data, for one shape. */
  static final class Weight {

    private final KnownSystem solver;
    private final double[] own;
    private final double factor;
    private final double[] alike;
    private final double[] alikeWeighted;
    private final double alikeSquare;

    private Weight(KnownSystem solver, double[] own, double factor, double[] alike) {
      this.solver = solver;
      this.own = own;
      this.factor = factor;
      this.alike = alike;
      this.alikeWeighted = solver.solve(alike);
      this.alikeSquare = Math.max(1e-300, Projections.dot(alike, alikeWeighted));
    }

    /**
     * Inverse covariance times the noise squared, applied to a shape. A covariance around zero
     * draws a shape towards none, and what a neighbour's tail can take of it goes there; so a part
     * of the weight along the shape itself, its size, is taken off.
     */
    double[] of(double[] shape) {
      double[] weighted = solver.solve(shape);
      double along = SIZE_FREE * Projections.dot(alike, weighted) / alikeSquare;
      for (int k = 0; k < weighted.length; k++) {
        weighted[k] = factor * (weighted[k] - along * alikeWeighted[k]);
      }
      return weighted;
    }

    /** About the diagonal of it. */
    double at(int sample) {
      return factor * own[sample];
    }
  }

  /**
   * The weight for a shape that is nearly this one.
   *
   * @param ownSamples how far from its arrival no neighbour has a part in it
   */
  Weight weight(PotentialShape shape, double ownSamples) {
    int length = shape.length();
    double size = Math.max(shape.peakToPeakUv(), 1e-9);
    double noise = signal.noiseUv() / size;
    double[][] products = products(shape);
    double misfit = Math.max(LEAST_MISFIT, misfit(shape, size, products, ownSamples));
    double[][] together = part(products, 0, length, 0);
    double[] own = new double[length];
    for (int i = 0; i < length; i++) {
      double awayUs = Math.abs(signal.timeBase().durationUs(i - shape.origin()));
      double share = Math.exp(-Math.max(0, awayUs - CORE_US) / ShapeEnds.DECAY_US);
      double deviation = Math.max(LEAST_SHARE, Math.min(share, misfit));
      together[i][i] += deviation * deviation;
      own[i] = 1 / (deviation * deviation);
    }
    double[] alike = alike(shape, products, ownSamples);
    return new Weight(new KnownSystem(together), own, noise * noise, alike);
  }

  /** The shape itself near its arrival, farther off what the family knows of it. */
  private double[] alike(PotentialShape shape, double[][] products, double ownSamples) {
    double[] samples = shape.samples();
    int length = samples.length;
    double[] weighted = strict(products).solve(samples);
    double[] alike = new double[length];
    for (int i = 0; i < length; i++) {
      double away = Math.abs(i - shape.origin()) / ownSamples;
      double itself = 0.5 + 0.5 * Math.cos(Math.PI * Math.max(0, Math.min(1, away - 1)));
      alike[i] = itself * samples[i] + (1 - itself) * Projections.dot(products[i], weighted);
    }
    return alike;
  }

  private KnownSystem strict(double[][] products) {
    KnownSystem known = strict;
    if (known == null) {
      known = new KnownSystem(part(products, 0, products.length, STRICT_MISFIT * STRICT_MISFIT));
      strict = known;
    }
    return known;
  }

  /** A part of the family's products with a variance on the diagonal. */
  private static double[][] part(double[][] products, int from, int count, double variance) {
    double[][] part = new double[count][count];
    for (int i = 0; i < count; i++) {
      System.arraycopy(products[from + i], from, part[i], 0, count);
      part[i][i] += variance;
    }
    return part;
  }

  private double[][] products(PotentialShape shape) {
    FibreFamily known = family;
    if (known == null) {
      int before = shape.origin();
      known = FibreFamily.of(signal, before, shape.length() - before - 1);
      family = known;
    }
    return known.products();
  }

  /** What the family leaves of the steep part of a shape, root of the mean square over its size. */
  private double misfit(PotentialShape shape, double size, double[][] products, double ownSamples) {
    int half = (int) Math.min(ownSamples, signal.timeBase().lengthSamples(JUDGED_US));
    int from = Math.max(0, shape.origin() - half);
    int count = Math.min(shape.length(), shape.origin() + half + 1) - from;
    double[] seen = new double[count];
    double[] samples = shape.samples();
    double tolerated = LEAST_MISFIT * LEAST_MISFIT;
    for (int i = 0; i < count; i++) {
      seen[i] = samples[from + i] / size;
    }
    double[] left =
        steep
            .computeIfAbsent(
                (long) from << 32 | count,
                key -> new KnownSystem(part(products, from, count, tolerated)))
            .solve(seen);
    double sum = 0;
    for (double value : left) {
      sum += tolerated * value * tolerated * value;
    }
    return Math.sqrt(sum / count);
  }
}
