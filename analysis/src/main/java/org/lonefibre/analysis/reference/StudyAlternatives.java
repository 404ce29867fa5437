package org.lonefibre.analysis.reference;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.grading.Grade;
import org.lonefibre.analysis.jitter.JitterStatistic;
import org.lonefibre.analysis.reference.StudySignal.Acceptance;
import org.lonefibre.analysis.study.PairResult;
import org.lonefibre.analysis.study.StudyAlternative;

/** The result under alternatives: doubtful signals left out, MSD for all, the other limit sets. */
final class StudyAlternatives {

  private final List<StudySignal> all;
  private final StudySettings settings;

  StudyAlternatives(List<StudySignal> all, StudySettings settings) {
    this.all = all;
    this.settings = settings;
  }

  List<StudyAlternative> of(@Nullable LimitRow row, List<LimitRow> others) {
    List<StudyAlternative> alternatives = new ArrayList<>();
    if (all.isEmpty()) {
      return alternatives;
    }
    List<StudySignal> certain =
        all.stream()
            .filter(s -> s.potentials().stream().noneMatch(p -> p.grade() == Grade.DOUBTFUL))
            .toList();
    alternatives.add(
        alternative(
            "doubtful-left-out",
            LimitFindings.text("doubtful signals left out (%d)", all.size() - certain.size()),
            certain,
            row));
    if (all.stream().anyMatch(s -> s.signal() instanceof PairResult)) {
      alternatives.add(
          alternative(
              "msd-for-all",
              "mean sorted difference for all",
              all.stream().map(StudyAlternatives::sorted).toList(),
              row));
    }
    for (LimitRow other : others) {
      if (!other.equals(row)) {
        alternatives.add(
            alternative(
                "other-limits",
                LimitFindings.text("limit set %s (%s)", other.setId(), LimitFindings.limits(other)),
                all,
                other));
      }
    }
    return alternatives;
  }

  private StudyAlternative alternative(
      String code, String text, List<StudySignal> signals, @Nullable LimitRow row) {
    StudyTally tally = new StudyTally(signals, Acceptance.FULL_GRADE, row, settings);
    return new StudyAlternative(
        code,
        text,
        tally.signals().size(),
        tally.meanUs(),
        tally.medianUs(),
        tally.aboveLimitOrBlocking(),
        tally.verdict());
  }

  private static StudySignal sorted(StudySignal signal) {
    if (!(signal.signal() instanceof PairResult pair)
        || pair.jitterUs() == null
        || pair.meanSortedDifferenceUs() == null) {
      return signal;
    }
    return new StudySignal(
        signal.site(),
        signal.siteName(),
        signal.unit(),
        new PairResult(
            pair.id(),
            pair.triggerPotential(),
            pair.pairedPotential(),
            pair.sweeps(),
            pair.presentSweeps(),
            pair.blockedSweeps(),
            pair.triggerAbsentSweeps(),
            pair.obscuredSweeps(),
            pair.excludedSweeps(),
            pair.differences(),
            pair.blockingPercent(),
            pair.meanIntervalUs(),
            pair.meanConsecutiveDifferenceUs(),
            pair.meanSortedDifferenceUs(),
            pair.meanSortedDifferenceUs(),
            JitterStatistic.MEAN_SORTED_DIFFERENCE,
            pair.timingFloorUs(),
            pair.correctedJitterUs(),
            pair.correctedJitterLowUs(),
            pair.correctedJitterHighUs(),
            pair.meanInterDischargeIntervalMs(),
            pair.status(),
            pair.findings(),
            pair.intervals()),
        signal.rateHz(),
        signal.potentials(),
        signal.jointBlockSweeps());
  }
}
