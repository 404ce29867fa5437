package org.lonefibre.analysis.discharge;

import org.lonefibre.analysis.conditioning.ConditionedSignal;
import org.lonefibre.signal.recording.Segment;
import org.lonefibre.signal.robust.RobustStatistics;

/**
 * The signal around discharges as rows of numbers, and the axes along which it varies most. Each
 * point is taken in units of its own robust spread and cut off at 3 of them, so that a foreign
 * potential that lies on one discharge counts little.
 */
final class DischargeFeatures {

  private static final double REACH_US = 3000;
  private static final double STEP_US = 40;
  private static final double FARTHEST = 3;
  private static final int ITERATIONS = 30;

  private final double[][] rows;

  /** Sums over the rows of the products of two of their values: iterations need no row. */
  private final double[][] products;

  private DischargeFeatures(double[][] rows) {
    this.rows = rows;
    this.products = products(rows);
  }

  static DischargeFeatures read(ConditionedSignal signal, double[] places, int[] segments) {
    int length = 2 * (int) (REACH_US / STEP_US) + 1;
    double step = signal.timeBase().lengthSamples(STEP_US);
    double reach = signal.timeBase().lengthSamples(REACH_US);
    double[] window = new double[(int) Math.ceil(2 * reach) + 8];
    double[][] rows = new double[places.length][length];
    for (int i = 0; i < rows.length; i++) {
      Segment segment = signal.segments().get(segments[i]);
      long first = (long) Math.floor(places[i] - reach) - 2;
      Snippets.readPadded(signal, segment, first, window);
      for (int k = 0; k < length; k++) {
        rows[i][k] = Snippets.cubic(window, places[i] - reach - first + k * step);
      }
    }
    standardise(rows, signal.noiseUv());
    return new DischargeFeatures(rows);
  }

  private static void standardise(double[][] rows, double noiseUv) {
    double[] column = new double[rows.length];
    for (int k = 0; k < rows[0].length; k++) {
      for (int i = 0; i < rows.length; i++) {
        column[i] = rows[i][k];
      }
      double centre = RobustStatistics.medianInPlace(column, column.length);
      double spread =
          Math.max(noiseUv, RobustStatistics.standardDeviationAroundInPlace(column, centre));
      for (double[] row : rows) {
        row[k] = Math.max(-FARTHEST, Math.min(FARTHEST, (row[k] - centre) / spread));
      }
    }
    for (int k = 0; k < rows[0].length; k++) {
      double mean = 0;
      for (double[] row : rows) {
        mean += row[k] / rows.length;
      }
      for (double[] row : rows) {
        row[k] -= mean;
      }
    }
  }

  private static double[][] products(double[][] rows) {
    int length = rows[0].length;
    double[][] products = new double[length][length];
    int i = 0;
    // Four rows at a time: a sum is read and written once for four products.
    for (; i + 3 < rows.length; i += 4) {
      for (int k = 0; k < length; k++) {
        addTo(products[k], k, rows, i);
      }
    }
    for (; i < rows.length; i++) {
      double[] row = rows[i];
      for (int k = 0; k < length; k++) {
        addTo(products[k], row[k], row);
      }
    }
    for (int k = 0; k < length; k++) {
      for (int j = 0; j < k; j++) {
        products[k][j] = products[j][k];
      }
    }
    return products;
  }

  /** Adds the products of value k of four rows with their values from there on. */
  private static void addTo(double[] sums, int k, double[][] rows, int i) {
    double[] a = rows[i];
    double[] b = rows[i + 1];
    double[] c = rows[i + 2];
    double[] d = rows[i + 3];
    double ofA = a[k];
    double ofB = b[k];
    double ofC = c[k];
    double ofD = d[k];
    for (int j = k; j < sums.length; j++) {
      sums[j] += ofA * a[j] + ofB * b[j] + ofC * c[j] + ofD * d[j];
    }
  }

  private static void addTo(double[] sums, double factor, double[] row) {
    for (int j = 0; j < sums.length; j++) {
      sums[j] += factor * row[j];
    }
  }

  /** Scores of the rows on the axis of greatest variation, which is then taken out of the rows. */
  double[] nextAxis() {
    double[] axis = rows[widest()].clone();
    for (int iteration = 0; iteration < ITERATIONS; iteration++) {
      normalise(axis);
      axis = image(axis);
    }
    normalise(axis);
    double[] scores = new double[rows.length];
    score(axis, scores);
    for (int i = 0; i < rows.length; i++) {
      addTo(rows[i], -scores[i], axis);
    }
    double[] image = image(axis);
    double energy = Snippets.energy(scores);
    for (int k = 0; k < axis.length; k++) {
      addTo(products[k], energy * axis[k] - image[k], axis);
      addTo(products[k], -axis[k], image);
    }
    return scores;
  }

  /** The axis times the products: the sum of the rows, each times its score. */
  private double[] image(double[] axis) {
    double[] image = new double[axis.length];
    for (int k = 0; k < axis.length; k++) {
      addTo(image, axis[k], products[k]);
    }
    return image;
  }

  private int widest() {
    int widest = 0;
    double most = -1;
    for (int i = 0; i < rows.length; i++) {
      double energy = Snippets.energy(rows[i]);
      if (energy > most) {
        most = energy;
        widest = i;
      }
    }
    return widest;
  }

  private void score(double[] axis, double[] scores) {
    for (int i = 0; i < rows.length; i++) {
      double sum = 0;
      for (int k = 0; k < axis.length; k++) {
        sum += rows[i][k] * axis[k];
      }
      scores[i] = sum;
    }
  }

  private static void normalise(double[] axis) {
    double size = Math.sqrt(Math.max(Snippets.energy(axis), 1e-30));
    for (int k = 0; k < axis.length; k++) {
      axis[k] /= size;
    }
  }
}
