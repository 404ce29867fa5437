package org.lonefibre.analysis.potential;

import java.util.List;
import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.ArrayRealVector;
import org.hipparchus.linear.DecompositionSolver;
import org.hipparchus.linear.QRDecomposition;
import org.lonefibre.analysis.conditioning.ConditionedSignal;
import org.lonefibre.signal.recording.TimeBase;

/**
 * How near a shape comes to that of one fibre before any needle the model knows: the nearest member
 * of {@link FibreFamily} at any size and arrival, up to a fifth wider or narrower, on a baseline
 * that may slope, as the tail of a neighbour makes it.
 *
 * <ul>
 *   <li>Only the steep part and its two flanks are compared.
 *   <li>Thread rule: immutable.
 * </ul>
 */
public final class FibreLikeness {

  private static final double BEFORE_US = 300;
  private static final double AFTER_US = 350;
  private static final double WIDEST = 1.2;
  private static final double WIDTH_STEP = 0.1;
  private static final double SHIFT_STEP_SAMPLES = 3;
  private static final int ROUNDS = 4;
  private static final double SINGULAR = 1e-12;

  private final List<double[]> members;
  private final int before;
  private final int after;

  /** The family as the filter of a signal lets it pass. */
  public FibreLikeness(ConditionedSignal signal) {
    TimeBase timeBase = signal.timeBase();
    members = FibreFamily.passedBy(signal);
    before = (int) timeBase.lengthSamples(BEFORE_US);
    after = (int) timeBase.lengthSamples(AFTER_US);
  }

  /**
   * What the nearest member leaves of a shape.
   *
   * @param shapeUv a shape, one value a sample
   * @param steepest its steepest sample
   * @param noiseUv standard deviation of one of its values
   * @return root mean square of what is left beyond noise, over maximum minus minimum; 0 or more
   */
  public double misfitRatio(double[] shapeUv, int steepest, double noiseUv) {
    int from = Math.max(0, steepest - before);
    int count = Math.min(shapeUv.length, steepest + after + 1) - from;
    double[] part = new double[count];
    double low = Double.POSITIVE_INFINITY;
    double high = Double.NEGATIVE_INFINITY;
    for (int k = 0; k < count; k++) {
      part[k] = shapeUv[from + k];
      low = Math.min(low, part[k]);
      high = Math.max(high, part[k]);
    }
    double least = Double.POSITIVE_INFINITY;
    for (double[] member : members) {
      least = Math.min(least, left(member, part, steepest - from));
    }
    return Math.sqrt(Math.max(0, least - noiseUv * noiseUv)) / Math.max(high - low, 1e-12);
  }

  /** Mean square of what one member leaves, arrival and width found step by step. */
  private static double left(double[] member, double[] part, int steepest) {
    int middle = FibreFamily.steepest(member);
    double shift = 0;
    double width = 1;
    for (int round = 0; ; round++) {
      double[][] modes = new double[part.length][5];
      for (int k = 0; k < part.length; k++) {
        double at = k - steepest - shift;
        double place = middle + at / width;
        double slope =
            (FibreFamily.at(member, place + 0.5) - FibreFamily.at(member, place - 0.5)) / width;
        modes[k] =
            new double[] {
              FibreFamily.at(member, place), 1, 2.0 * k / part.length - 1, -slope, -slope * at
            };
      }
      double[] found = round < ROUNDS ? solution(modes, part) : new double[5];
      if (Math.abs(found[0]) < SINGULAR) {
        return squares(modes, 3, part);
      }
      shift += limited(found[3] / found[0], SHIFT_STEP_SAMPLES);
      width += limited(found[4] / found[0], WIDTH_STEP);
      width = Math.max(1 / WIDEST, Math.min(WIDEST, width));
    }
  }

  private static double limited(double value, double most) {
    return Math.max(-most, Math.min(most, value));
  }

  /** Least squares; zeros if the modes do not differ. */
  private static double[] solution(double[][] modes, double[] part) {
    DecompositionSolver solver =
        new QRDecomposition(new Array2DRowRealMatrix(modes, false), SINGULAR).getSolver();
    return solver.isNonSingular()
        ? solver.solve(new ArrayRealVector(part, false)).toArray()
        : new double[modes[0].length];
  }

  /** Mean square left by the first modes alone. */
  private static double squares(double[][] modes, int first, double[] part) {
    double[][] some = new double[modes.length][];
    for (int k = 0; k < some.length; k++) {
      some[k] = java.util.Arrays.copyOf(modes[k], first);
    }
    double[] found = solution(some, part);
    double sum = 0;
    for (int k = 0; k < part.length; k++) {
      double value = part[k];
      for (int j = 0; j < first; j++) {
        value -= found[j] * some[k][j];
      }
      sum += value * value;
    }
    return sum / part.length;
  }
}
