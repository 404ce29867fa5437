package org.lonefibre.workbench.practice;

import java.util.HashSet;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.grading.Grade;
import org.lonefibre.workbench.declaration.PracticeCase;

/**
 * How near a judgement comes to the truth. All rules are engineering choices.
 *
 * <ul>
 *   <li>The grade counts 1 if it is right, a half if it is doubtful, 0 otherwise.
 *   <li>The place of a second fibre is asked where there is one: 1 within {@value #NEAR_MS} ms of a
 *       fibre of the potential other than its largest, falling to 0 at three times that; 0 if none
 *       is given.
 *   <li>Blocked sweeps count as those found of all that are blocked or were said to be; 1 if there
 *       are none.
 *   <li>The score is the mean of the two or three.
 * </ul>
 *
 * @param gradeRatio of the grade
 * @param placeRatio of the place; null where there is no second fibre
 * @param placeErrorMs from the nearest; null if none was given, or there is none
 * @param found blocked sweeps that were found
 * @param missed blocked sweeps that were not
 * @param wrong sweeps said to be blocked that are not
 * @param scorePercent 0 to 100
 */
record Mark(
    double gradeRatio,
    @Nullable Double placeRatio,
    @Nullable Double placeErrorMs,
    int found,
    int missed,
    int wrong,
    int scorePercent) {

  private static final double NEAR_MS = 0.1;

  static Mark of(Judgement judgement, PracticeCase.Truth truth) {
    double grade =
        judgement.grade() == truth.grade() ? 1 : judgement.grade() == Grade.DOUBTFUL ? 0.5 : 0;
    boolean isPlaced = truth.fibres().size() > 1;
    Double errorMs = isPlaced ? error(judgement.secondFibreMs(), truth) : null;
    double place =
        errorMs == null ? 0 : Math.max(0, Math.min(1, 1.5 - Math.abs(errorMs) / (2 * NEAR_MS)));
    Set<Integer> hits = new HashSet<>(judgement.blockedSweeps());
    int said = hits.size();
    hits.retainAll(truth.blockedSweeps());
    int missed = truth.blockedSweeps().size() - hits.size();
    int all = missed + said;
    double blocked = all == 0 ? 1 : (double) hits.size() / all;
    double score = isPlaced ? (grade + place + blocked) / 3 : (grade + blocked) / 2;
    return new Mark(
        grade,
        isPlaced ? place : null,
        errorMs,
        hits.size(),
        missed,
        said - hits.size(),
        (int) Math.round(100 * score));
  }

  private static @Nullable Double error(@Nullable Double said, PracticeCase.Truth truth) {
    if (said == null) {
      return null;
    }
    double nearest = Double.MAX_VALUE;
    for (PracticeCase.Fibre fibre : truth.fibres().subList(1, truth.fibres().size())) {
      double error = said - fibre.offsetMs();
      if (Math.abs(error) < Math.abs(nearest)) {
        nearest = error;
      }
    }
    return nearest;
  }
}
