package org.lonefibre.validation.cases;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.function.Function;
import java.util.function.ToDoubleFunction;
import java.util.stream.IntStream;
import org.hipparchus.linear.ArrayRealVector;
import org.hipparchus.linear.LUDecomposition;
import org.hipparchus.linear.MatrixUtils;
import org.hipparchus.linear.RealMatrix;
import org.hipparchus.linear.RealVector;
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
 *   <li>What moves has told, as a rule, before a shape is unlike one fibre's: beside the evidence
 *       of movement the misfit has little left to say, and its weight would be that of chance. Its
 *       worth is for fibres that hardly move against each other. So it is fitted first, by itself,
 *       to one fibre and to small second ones, and then held.
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

  private record Example(ShapeMeasures shape, Second second) {}

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
        "potential,against,for,misfit,constant",
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
        .forEachOrdered(shape -> examples.add(new Example(shape, condition.second())));
  }

  private static String row(String name, List<Example> examples, boolean accompanied) {
    Function<ShapeMeasures, double[]> all =
        shape -> OneFibreProbability.weighedRatio(shape, accompanied);
    List<Example> seldomTold =
        examples.stream().filter(example -> example.second() != Second.LARGE).toList();
    double misfit = fit(seldomTold, shape -> new double[] {all.apply(shape)[2], 1}, shape -> 0)[0];
    double[] evidence =
        fit(
            examples,
            shape -> new double[] {all.apply(shape)[0], all.apply(shape)[1], 1},
            shape -> misfit * all.apply(shape)[2]);
    return String.format(
        Locale.ROOT, "%s,%.3f,%.3f,%.3f,%.3f", name, evidence[0], evidence[1], misfit, evidence[2]);
  }

  /**
   * Weights by Newton's method on the penalised likelihood.
   *
   * @param features what is weighed
   * @param known part of the sum that is held
   */
  private static double[] fit(
      List<Example> examples,
      Function<ShapeMeasures, double[]> features,
      ToDoubleFunction<ShapeMeasures> known) {
    int n = features.apply(examples.get(0).shape()).length;
    double penalty = RIDGE * examples.size() / 100;
    RealVector weights = new ArrayRealVector(n);
    for (int round = 0; round < ROUNDS; round++) {
      RealVector slope = weights.mapMultiply(-penalty);
      RealMatrix curvature = MatrixUtils.createRealIdentityMatrix(n).scalarMultiply(penalty);
      for (Example example : examples) {
        RealVector values = new ArrayRealVector(features.apply(example.shape()), false);
        double sum = weights.dotProduct(values) + known.applyAsDouble(example.shape());
        double p = 1 / (1 + Math.exp(-sum));
        double left = (example.second() == Second.NONE ? 0 : 1) - p;
        slope = slope.add(values.mapMultiply(left));
        curvature = curvature.add(values.outerProduct(values).scalarMultiply(p * (1 - p)));
      }
      weights = weights.add(new LUDecomposition(curvature).getSolver().solve(slope));
    }
    return weights.toArray();
  }
}
