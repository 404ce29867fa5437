package org.lonefibre.analysis.grading;

import de.siegmar.fastcsv.reader.CommentStrategy;
import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.NamedCsvRecord;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.HashMap;
import java.util.Map;

/**
 * The probability that one fibre made a potential, from what was measured of its shape: logistic,
 * with weights fitted to simulated potentials of one fibre and of two, as many of either kind.
 *
 * <ul>
 *   <li>Notches are not weighed: among simulated potentials they told nothing (in the fit they
 *       spoke for one fibre, as the end of a neighbour's wave makes them too). They stand among the
 *       reasons, and decide by the rules of thumb.
 *   <li>The weights are a resource; how it was made is said there and in the validation.
 *   <li>Thread rule: immutable.
 * </ul>
 */
public final class OneFibreProbability {

  private static final double USUAL_MISFIT = 0.06;
  private static final Map<String, double[]> WEIGHTS = read();

  private OneFibreProbability() {}

  /**
   * The numbers that are weighed.
   *
   * @param accompanied whether movement against the arrivals is weighed as well
   * @return the evidence for a second fibre where it speaks against one, the same where it speaks
   *     for one (with one weight for both, probabilities about a half were less true), logarithm of
   *     the misfit over 6 %, which one fibre before a known needle may leave
   */
  public static double[] weighedRatio(ShapeMeasures shape, boolean accompanied) {
    double evidence = accompanied ? shape.evidenceRatio() : shape.varianceEvidenceRatio();
    return new double[] {
      Math.min(0, evidence),
      Math.max(0, evidence),
      Math.log(Math.max(1, shape.misfitRatio() / USUAL_MISFIT))
    };
  }

  /** The probability, 0 to 1. */
  static double of(ShapeMeasures shape) {
    boolean accompanied = shape.followsRatio() != null;
    double[] weights = weights(accompanied ? "accompanied" : "alone");
    double[] features = weighedRatio(shape, accompanied);
    double sum = weights[features.length];
    for (int i = 0; i < features.length; i++) {
      sum += weights[i] * features[i];
    }
    return 1 / (1 + Math.exp(sum));
  }

  private static double[] weights(String potential) {
    double[] weights = WEIGHTS.get(potential);
    if (weights == null) {
      throw new IllegalStateException("one-fibre-weights.csv has no row " + potential);
    }
    return weights;
  }

  private static Map<String, double[]> read() {
    try (InputStream in = OneFibreProbability.class.getResourceAsStream("one-fibre-weights.csv")) {
      if (in == null) {
        throw new IllegalStateException("one-fibre-weights.csv is missing from the program");
      }
      Map<String, double[]> weights = new HashMap<>();
      try (InputStreamReader text = new InputStreamReader(in, StandardCharsets.US_ASCII);
          CsvReader<NamedCsvRecord> rows =
              CsvReader.builder().commentStrategy(CommentStrategy.SKIP).ofNamedCsvRecord(text)) {
        for (NamedCsvRecord row : rows) {
          weights.put(
              row.getField("potential"),
              new double[] {
                Double.parseDouble(row.getField("against")),
                Double.parseDouble(row.getField("for")),
                Double.parseDouble(row.getField("misfit")),
                Double.parseDouble(row.getField("constant"))
              });
        }
      }
      return Map.copyOf(weights);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
