package org.lonefibre.workbench.study;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.study.Examination;
import org.lonefibre.analysis.study.RecordingResult;
import org.lonefibre.analysis.study.StudySummary;
import org.lonefibre.analysis.study.Verdict;
import org.lonefibre.store.studies.Step;
import org.lonefibre.workbench.declaration.Analyst;
import org.lonefibre.workbench.server.Refusal;

/**
 * What each decision in force does to the comparison of its part: the study is judged once without
 * it, all others as they are, and once with it alone.
 *
 * <ul>
 *   <li>A site measured again rests on a measurement that is kept only with all steps before it; a
 *       step that would need another is not judged.
 *   <li>At most {@value #MOST} decisions are judged, the last ones.
 * </ul>
 */
final class Effects {

  private static final int MOST = 200;

  /**
   * What one decision does.
   *
   * @param sequence its number
   * @param now the comparison as it stands
   * @param without the comparison without it; null if that was not judged
   * @param alone the comparison with it alone; null if that was not judged
   * @param meanJitterUs mean jitter as it stands
   * @param meanJitterWithoutUs mean jitter without it
   */
  record Effect(
      int sequence,
      Verdict now,
      @Nullable Verdict without,
      @Nullable Verdict alone,
      @Nullable Double meanJitterUs,
      @Nullable Double meanJitterWithoutUs) {}

  private final Desk desk;
  private final OpenStudy study;
  private final Examination automatic;
  private final Examination current;

  private Effects(Desk desk, OpenStudy study) {
    this.desk = desk;
    this.study = study;
    this.automatic = Objects.requireNonNull(study.automatic());
    this.current = Objects.requireNonNull(study.current());
  }

  static List<Effect> of(Desk desk, OpenStudy study) throws IOException {
    if (study.isBlind()) {
      throw new Refusal(409, "A blind reading shows no comparison.");
    }
    if (study.automatic() == null || study.current() == null) {
      return List.of();
    }
    List<Step> active =
        study.steps().stream().filter(step -> step.state().equals("active")).toList();
    Effects effects = new Effects(desk, study);
    List<Effect> all = new ArrayList<>();
    for (Step step : active.subList(Math.max(0, active.size() - MOST), active.size())) {
      all.add(effects.of(step));
    }
    return all;
  }

  private Effect of(Step step) throws IOException {
    int part = Integer.parseInt(step.site().substring(0, step.site().indexOf('/')));
    int site = Integer.parseInt(step.site().substring(step.site().indexOf('/') + 1));
    StudySummary now = current.studies().get(part).summary();
    StudySummary without =
        judged(
            part,
            site,
            study.steps().stream().filter(other -> other != step).toList(),
            current.studies().get(part).recordings());
    StudySummary alone =
        judged(part, site, List.of(step), automatic.studies().get(part).recordings());
    return new Effect(
        step.sequence(),
        now.verdictByFullGrade(),
        without == null ? null : without.verdictByFullGrade(),
        alone == null ? null : alone.verdictByFullGrade(),
        now.meanJitterUs(),
        without == null ? null : without.meanJitterUs());
  }

  /** A part with one site as some steps make it; null if that was never measured. */
  private @Nullable StudySummary judged(
      int part, int site, List<Step> steps, List<RecordingResult> others) throws IOException {
    List<RecordingResult> sites = new ArrayList<>(others);
    try {
      sites.set(
          site,
          desk.revised(
              study.kept().id(),
              new Analyst.Known(study.declaration(), automatic),
              part,
              site,
              SiteSteps.of(steps, Desk.siteKey(part, site))));
    } catch (Refusal | IllegalArgumentException e) {
      return null;
    }
    return desk.analyst().judge(study.declaration(), automatic, part, sites);
  }
}
