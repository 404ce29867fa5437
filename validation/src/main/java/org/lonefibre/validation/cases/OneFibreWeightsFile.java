package org.lonefibre.validation.cases;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.IntStream;
import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.ArrayRealVector;
import org.hipparchus.linear.LUDecomposition;
import org.lonefibre.analysis.grading.GradedPotential;
import org.lonefibre.analysis.grading.OneFibreProbability;
import org.lonefibre.analysis.grading.ShapeMeasures;
import org.lonefibre.model.simulation.ShapeFamily;
import org.lonefibre.validation.cases.OneFibreTrial.Condition;
import org.lonefibre.validation.cases.OneFibreTrial.Second;

/**
 * The weights that turn what was measured of a shape into the probability of one fibre, as a file:
 * logistic regression over {@link OneFibreTrial} at SNR 10, 20 and 40, easy and hard, as many
 * potentials of one fibre as of two (a third of the second fibres small).
 *
 * <ul>
 *   <li>Shapes: point electrode, solved single-fibre and small concentric needle. The averaging
 *       surface with the other wave, and the standard concentric needle, are kept apart for the
 *       tables.
 * </ul>
 */
public final class OneFibreWeightsFile {

  /** Shapes that the weights were fitted to. */
  public static final List<ShapeFamily> FITTED =
      List.of(
          ShapeFamily.CUBIC_POINT,
          ShapeFamily.SOLVED_SINGLE_FIBRE,
          ShapeFamily.SOLVED_CONCENTRIC_SMALL);

  /** Trials are counted from here, away from those of the tables. */
  private static final long FIRST = 2_000_000;

  private static final double[] SNRS = {10, 20, 40};
  private static final double RIDGE = 1e-3;
  private static final int ROUNDS = 40;

  private OneFibreWeightsFile() {}

  private record Example(ShapeMeasures shape, boolean composite) {}

  /**
   * Writes the file anew.
   *
   * @param arguments its path, and trials a condition (a third of them clean ones)
   * @throws IOException if it cannot be written
   */
  public static void main(String[] arguments) throws IOException {
    Files.write(Path.of(arguments[0]), lines(Integer.parseInt(arguments[1])));
  }

  /** The file, line by line. */
  public static List<String> lines(int trials) {
    List<Example> examples = new ArrayList<>();
    for (ShapeFamily shapes : FITTED) {
      for (double snr : SNRS) {
        for (boolean hard : new boolean[] {false, true}) {
          add(examples, new Condition(shapes, snr, hard, Second.NONE), 3 * trials);
          add(examples, new Condition(shapes, snr, hard, Second.SMALL), trials);
          add(examples, new Condition(shapes, snr, hard, Second.LARGE), 2 * trials);
        }
      }
    }
    return List.of(
        "# weights of the probability that one fibre made a potential: 1 / (1 + exp(sum)); fitted to "
            + examples.size()
            + " simulated potentials",
        "potential,evidence,misfit,constant",
        row("alone", examples, false),
        row("accompanied", examples, true));
  }

  private static void add(List<Example> examples, Condition condition, int trials) {
    IntStream.range(0, trials)
        .parallel()
        .mapToObj(trial -> OneFibreTrial.run(condition, FIRST + trial))
        .filter(outcome -> !outcome.apart())
        .map(OneFibreTrial.Outcome::graded)
        .filter(graded -> graded != null && graded.measures() != null)
        .map(GradedPotential::measures)
        .forEachOrdered(
            shape -> examples.add(new Example(shape, condition.second() != Second.NONE)));
  }

  private static String row(String name, List<Example> examples, boolean accompanied) {
    int count = OneFibreProbability.featureCount() + 1;
    double[][] features = new double[examples.size()][];
    for (int i = 0; i < features.length; i++) {
      double[] row =
          java.util.Arrays.copyOf(
              OneFibreProbability.weighedRatio(examples.get(i).shape(), accompanied), count);
      row[count - 1] = 1;
      features[i] = row;
    }
    StringBuilder text = new StringBuilder(name);
    for (double weight : fit(features, examples)) {
      text.append(String.format(Locale.ROOT, ",%.3f", weight));
    }
    return text.toString();
  }

  /** Newton's method on the penalised likelihood. */
  private static double[] fit(double[][] features, List<Example> examples) {
    int n = features[0].length;
    double[] weights = new double[n];
    for (int round = 0; round < ROUNDS; round++) {
      double[][] curvature = new double[n][n];
      double[] slope = new double[n];
      for (int i = 0; i < n; i++) {
        curvature[i][i] = RIDGE * examples.size() / 100;
        slope[i] = -curvature[i][i] * weights[i];
      }
      for (int e = 0; e < features.length; e++) {
        double sum = 0;
        for (int i = 0; i < n; i++) {
          sum += weights[i] * features[e][i];
        }
        double p = 1 / (1 + Math.exp(-sum));
        double left = (examples.get(e).composite() ? 1 : 0) - p;
        for (int i = 0; i < n; i++) {
          slope[i] += left * features[e][i];
          for (int j = 0; j < n; j++) {
            curvature[i][j] += p * (1 - p) * features[e][i] * features[e][j];
          }
        }
      }
      double[] step =
          new LUDecomposition(new Array2DRowRealMatrix(curvature, false))
              .getSolver()
              .solve(new ArrayRealVector(slope, false))
              .toArray();
      for (int i = 0; i < n; i++) {
        weights[i] += step[i];
      }
    }
    return weights;
  }
}
