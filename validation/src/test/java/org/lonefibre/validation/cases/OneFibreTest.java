package org.lonefibre.validation.cases;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.lonefibre.analysis.grading.Grade;
import org.lonefibre.analysis.grading.GradedPotential;
import org.lonefibre.analysis.grading.ShapeMeasures;
import org.lonefibre.model.simulation.ShapeFamily;
import org.lonefibre.signal.recording.FindingCode;
import org.lonefibre.validation.cases.OneFibreTrial.Condition;
import org.lonefibre.validation.cases.OneFibreTrial.Outcome;
import org.lonefibre.validation.cases.OneFibreTrial.Second;

class OneFibreTest {

  private static final int TRIALS = 30;
  private static final double SNR = 20;

  private static List<Outcome> run(Second second, boolean hard) {
    Condition condition = new Condition(ShapeFamily.QUARTIC_SURFACE, SNR, hard, second);
    List<Outcome> outcomes = new ArrayList<>();
    for (int trial = 0; trial < TRIALS; trial++) {
      Outcome outcome = OneFibreTrial.run(condition, 77_000 + trial);
      if (outcome.apart() || outcome.graded() != null) {
        outcomes.add(outcome);
      }
    }
    return outcomes;
  }

  /** Those whose fibres were not told apart: where they are, each is a potential of its own. */
  private static List<Outcome> notApart(List<Outcome> found) {
    return found.stream().filter(outcome -> !outcome.apart()).toList();
  }

  private static long graded(List<Outcome> outcomes, Grade grade) {
    return outcomes.stream()
        .map(Outcome::graded)
        .filter(graded -> graded != null && graded.grade() == grade)
        .count();
  }

  @Test
  void oneFibreIsSeldomTakenForTwo() {
    List<Outcome> clean = notApart(run(Second.NONE, true));
    assertThat(clean).hasSizeGreaterThan(TRIALS - 3);
    assertThat(graded(clean, Grade.COMPOSITE)).isLessThanOrEqualTo(1);
    assertThat(graded(clean, Grade.SINGLE_FIBRE)).isGreaterThan(clean.size() * 3L / 4);
  }

  @Test
  void twoFibresAreSeldomTakenForOneAndTheSecondIsPlaced() {
    List<Outcome> found = run(Second.LARGE, false);
    assertThat(found).hasSizeGreaterThan(TRIALS - 6);
    List<Outcome> two = notApart(found);
    assertThat(two).hasSizeGreaterThan(TRIALS / 2);
    assertThat(graded(two, Grade.SINGLE_FIBRE)).isLessThanOrEqualTo(1);
    int placed = 0;
    for (Outcome outcome : two) {
      GradedPotential graded = outcome.graded();
      ShapeMeasures measures = graded == null ? null : graded.measures();
      assertThat(measures).isNotNull();
      if (measures != null && graded != null) {
        placed += Math.abs(measures.delayUs() - outcome.delayUs()) <= 75 ? 1 : 0;
        assertThat(measures.sizeRatio()).isLessThan(1.5 * outcome.sizeRatio() + 0.1);
        if (graded.grade() == Grade.COMPOSITE) {
          assertThat(graded.findings())
              .extracting(finding -> finding.code())
              .contains(FindingCode.COMPOSITE, FindingCode.SHAPE_VARIANCE);
        }
      }
    }
    assertThat(placed).isGreaterThan(two.size() / 2);
  }

  @Test
  void weightsOfAFewTrialsSpeakTheSameWay() {
    String[] row = OneFibreWeightsFile.lines(1).get(3).split(",", -1);
    assertThat(row[0]).isEqualTo("accompanied");
    assertThat(Double.parseDouble(row[1])).as("evidence against").isGreaterThan(0.5);
    assertThat(Double.parseDouble(row[2])).as("evidence for").isGreaterThan(0.3);
  }

  /** As many foreign potentials as one sweep in twenty holds do not make a composite. */
  @Test
  void inStrongNoiseForeignPotentialsSeldomMakeAComposite() {
    Condition condition =
        new Condition(ShapeFamily.SOLVED_CONCENTRIC_STANDARD, 10, true, Second.NONE);
    int single = 0;
    int composite = 0;
    for (int trial = 0; trial < TRIALS; trial++) {
      GradedPotential graded = OneFibreTrial.run(condition, 77_000 + trial).graded();
      single += graded != null && graded.grade() == Grade.SINGLE_FIBRE ? 1 : 0;
      composite += graded != null && graded.grade() == Grade.COMPOSITE ? 1 : 0;
    }
    assertThat(composite).isLessThanOrEqualTo(1);
    assertThat(single).isGreaterThanOrEqualTo(TRIALS * 3 / 4);
  }
}
