package org.lonefibre.analysis.potential;

import java.util.List;
import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.ArrayRealVector;
import org.hipparchus.linear.DecompositionSolver;
import org.hipparchus.linear.LUDecomposition;
import org.lonefibre.analysis.conditioning.ConditionedSignal;

/**
 * Moves arrivals, placed by plain least squares, to where least squares weighted by the noise's
 * spectrum has them: one step in arrival and size of all potentials of a discharge together. The
 * plain fit loses 10 to 20 % where the filter left noise uneven; this comes near the bound of
 * Cramer and Rao.
 *
 * <ul>
 *   <li>Sizes and presence stay as they were judged.
 *   <li>Thread rule: one thread at a time.
 * </ul>
 */
final class ArrivalRefiner {

  private static final double REACH_US = 800;
  private static final double SMALLEST_SCALE = 0.25;
  private static final double SIZE_SPREAD = 0.25;
  private static final double FARTHEST_ERRORS = 3;
  private static final double SINGULAR = 1e-300;

  /** As many as shapes are made of. */
  private static final int MOST_DISCHARGES = 250;

  private final ConditionedSignal signal;
  private final TrackedSite site = new TrackedSite();
  private final WindowReader windows;
  private final NoiseWeights weights;

  /**
   * @param signal the signal for timing
   * @param correlation of its noise
   * @param units all units, with their shapes in that signal
   */
  ArrivalRefiner(ConditionedSignal signal, double[] correlation, List<UnitTrack> units) {
    this.signal = signal;
    this.windows = new WindowReader(signal);
    int reach = (int) Math.ceil(signal.timeBase().lengthSamples(REACH_US));
    this.weights = new NoiseWeights(signal.noiseUv(), correlation, reach);
    site.note(units);
  }

  /**
   * A unit with better arrivals.
   *
   * @param errors receives the standard error of each potential's arrival that noise alone gives
   */
  UnitTrack refine(UnitTrack unit, int unitIndex, double[] errors) {
    WeightedShape[] shapes = new WeightedShape[unit.potentials];
    for (int p = 0; p < unit.potentials; p++) {
      int discharges = Math.min(MOST_DISCHARGES, unit.presentCount(p));
      shapes[p] = weights.weigh(unit.shape[p], discharges);
      errors[p] = shapes[p].errorSamples();
    }
    UnitTrack refined = unit.copy();
    for (int d = 0; d < unit.discharges; d++) {
      move(unit, refined, unitIndex, d, shapes);
    }
    return refined;
  }

  private void move(
      UnitTrack unit, UnitTrack refined, int unitIndex, int d, WeightedShape[] shapes) {
    int[] chosen = new int[unit.potentials];
    int n = 0;
    double earliest = Double.POSITIVE_INFINITY;
    double latest = Double.NEGATIVE_INFINITY;
    int margin = 0;
    for (int p = 0; p < unit.potentials; p++) {
      if (unit.presence[d][p] != Presence.ABSENT && unit.scale[d][p] > SMALLEST_SCALE) {
        chosen[n++] = p;
        earliest = Math.min(earliest, unit.arrival[d][p]);
        latest = Math.max(latest, unit.arrival[d][p]);
        margin = Math.max(margin, shapes[p].weighted().length());
      }
    }
    if (n == 0) {
      return;
    }
    long start = (long) Math.floor(earliest) - margin;
    double[] left = new double[(int) Math.ceil(latest - earliest) + 2 * margin + 2];
    windows.read(unit.segment[d], start, left);
    site.takeOut(left, start, unitIndex);
    for (int i = 0; i < n; i++) {
      int p = chosen[i];
      unit.shape[p].addTo(left, unit.arrival[d][p] - start, -unit.scale[d][p]);
    }
    double[] step = step(unit, d, start, left, shapes, chosen, n);
    for (int i = 0; i < n; i++) {
      int p = chosen[i];
      double most = FARTHEST_ERRORS * shapes[p].errorSamples() / unit.scale[d][p];
      if (Math.abs(step[2 * i]) <= most) {
        refined.arrival[d][p] += step[2 * i];
      }
    }
  }

  /** Moves and changes of size, by turns. */
  private double[] step(
      UnitTrack unit,
      int d,
      long start,
      double[] left,
      WeightedShape[] shapes,
      int[] chosen,
      int n) {
    double[][] own = new double[2 * n][];
    double[][] weighted = new double[2 * n][];
    int[] first = new int[n];
    for (int i = 0; i < n; i++) {
      WeightedShape shape = shapes[chosen[i]];
      double position = unit.arrival[d][chosen[i]] - start;
      double scale = unit.scale[d][chosen[i]];
      // A later arrival moves the wave against its slope.
      own[2 * i] = times(shape.own().slopeAt(position), -scale);
      own[2 * i + 1] = new double[shape.own().length()];
      shape.own().place(position, own[2 * i + 1]);
      weighted[2 * i] = times(shape.weighted().slopeAt(position), -scale);
      weighted[2 * i + 1] = new double[shape.weighted().length()];
      shape.weighted().place(position, weighted[2 * i + 1]);
      first[i] = shape.own().firstIndex(position);
    }
    double[][] normal = new double[2 * n][2 * n];
    double[] right = new double[2 * n];
    double prior = signal.noiseUv() / SIZE_SPREAD;
    for (int i = 0; i < 2 * n; i++) {
      right[i] = Projections.at(left, first[i / 2], weighted[i]);
      for (int j = 0; j < 2 * n; j++) {
        int shift = first[i / 2] - first[j / 2];
        normal[i][j] = Projections.at(own[j], shift, weighted[i]);
      }
      normal[i][i] += i % 2 == 1 ? prior * prior : 0;
    }
    DecompositionSolver solver =
        new LUDecomposition(new Array2DRowRealMatrix(normal, false), SINGULAR).getSolver();
    return solver.isNonSingular()
        ? solver.solve(new ArrayRealVector(right, false)).toArray()
        : new double[2 * n];
  }

  private static double[] times(double[] wave, double factor) {
    double[] scaled = new double[wave.length];
    for (int k = 0; k < scaled.length; k++) {
      scaled[k] = factor * wave[k];
    }
    return scaled;
  }
}
