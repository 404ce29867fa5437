package org.lonefibre.workbench.study;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.study.Examination;
import org.lonefibre.store.studies.KeptStudy;
import org.lonefibre.store.studies.Step;
import org.lonefibre.workbench.declaration.Declaration;
import org.lonefibre.workbench.server.Refusal;

/**
 * A study as it stands: what was found, what was decided, and what follows. Never altered: a change
 * makes another.
 *
 * @param kept its entry in the store, whose revision it is
 * @param declaration what is declared of it
 * @param automatic the automatic result; null before the first analysis
 * @param steps the decisions, those undone and abandoned included
 * @param current the result after the active decisions; null before the first analysis
 * @param reading whose second reading it is; null if it is a study of its own
 */
public record OpenStudy(
    KeptStudy kept,
    Declaration declaration,
    @Nullable Examination automatic,
    List<Step> steps,
    @Nullable Examination current,
    @Nullable Reading reading) {

  /** Copies the steps. */
  public OpenStudy {
    steps = List.copyOf(steps);
  }

  /** Whether grades are hidden from its reader. */
  public boolean isBlind() {
    return reading != null && reading.hidesGrades();
  }

  /**
   * Refuses what would show grades to a blind reader.
   *
   * @throws Refusal if they are hidden
   */
  public void requireGrades() {
    if (isBlind()) {
      throw new Refusal(409, "This reading is blind: finish it first.");
    }
  }

  /** The decisions in force. */
  public List<Step> activeSteps() {
    return steps.stream().filter(step -> step.state().equals("active")).toList();
  }
}
