package org.lonefibre.workbench.practice;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.grading.Grade;

/**
 * What a person says of a case.
 *
 * @param grade one fibre, doubtful or composite
 * @param secondFibreMs where a second fibre is, in ms from the trigger; null if none is pointed at
 * @param blockedSweeps of the sweeps drawn, those in which the potential is absent
 */
record Judgement(Grade grade, @Nullable Double secondFibreMs, List<Integer> blockedSweeps) {

  Judgement {
    blockedSweeps = List.copyOf(blockedSweeps);
    if (grade == Grade.UNGRADED) {
      throw new IllegalArgumentException("say single-fibre, doubtful or composite");
    }
    if (secondFibreMs != null && !(Math.abs(secondFibreMs) <= 20)) {
      throw new IllegalArgumentException(
          "the second fibre must lie within 20 ms of the trigger, found " + secondFibreMs);
    }
    if (blockedSweeps.size() > 200) {
      throw new IllegalArgumentException("at most 200 sweeps can be marked");
    }
  }
}
