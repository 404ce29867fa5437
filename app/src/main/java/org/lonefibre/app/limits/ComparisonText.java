package org.lonefibre.app.limits;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.reference.LaboratoryLimits;
import org.lonefibre.analysis.reference.LimitCatalogue;
import org.lonefibre.analysis.reference.LimitComparison;
import org.lonefibre.analysis.reference.LimitSettings;
import org.lonefibre.analysis.reference.StudyDeclaration;
import org.lonefibre.analysis.reference.StudyJudge;
import org.lonefibre.analysis.reference.StudySettings;
import org.lonefibre.analysis.study.Examination;
import org.lonefibre.analysis.study.Study;

/** What every set that holds would say, as a table a study. */
final class ComparisonText {

  private final StudyJudge judge;

  ComparisonText(LimitSettings settings, LaboratoryLimits laboratory) {
    judge = new StudyJudge(LimitCatalogue.load(settings, laboratory), StudySettings.defaults());
  }

  List<String> lines(Examination examination) {
    List<String> lines = new ArrayList<>();
    for (Study study : examination.studies()) {
      lines.add(
          (study.muscle() == null ? "muscle not given" : study.muscle())
              + ", "
              + (study.needle() == null ? "needle not given" : study.needle() + " needle")
              + ", "
              + words(study.activation())
              + ":");
      List<LimitComparison> sets =
          judge.compare(
              new StudyDeclaration(
                  study.muscle(),
                  examination.subject().ageYears(),
                  study.needle(),
                  study.activation(),
                  StudyDeclaration.Origin.DECLARED,
                  null,
                  null),
              study.recordings());
      if (sets.isEmpty()) {
        lines.add("  no set holds for this muscle, needle, activation and age");
        continue;
      }
      List<List<String>> rows = new ArrayList<>();
      rows.add(List.of("  set", "centre", "single", "above", "or blocking", "would say", "status"));
      for (LimitComparison set : sets) {
        rows.add(
            List.of(
                "  " + set.limits().set(),
                set.limits().centreUs() == null
                    ? "none"
                    : set.limits().centreStatistic() + " " + set.limits().centreUs() + " us",
                set.limits().individualUs() == null ? "blank" : set.limits().individualUs() + " us",
                count(set.signalsAboveLimit()),
                count(set.signalsAboveLimitOrBlocking()),
                set.use().equals("on") ? words(set.verdict()) : "nothing",
                set.use().equals("on") ? set.limits().status() : set.use()));
      }
      lines.addAll(Columns.of(rows));
      lines.add("  Sets are not to be mixed: pick one, and keep to it.");
    }
    return lines;
  }

  private static String words(Enum<?> constant) {
    return constant.name().toLowerCase(java.util.Locale.ROOT).replace('_', ' ');
  }

  private static String count(@Nullable Integer count) {
    return count == null ? "-" : count.toString();
  }
}
