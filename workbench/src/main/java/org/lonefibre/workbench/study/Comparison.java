package org.lonefibre.workbench.study;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.lonefibre.analysis.grading.Grade;
import org.lonefibre.analysis.study.Decision;
import org.lonefibre.analysis.study.Examination;
import org.lonefibre.analysis.study.PotentialResult;
import org.lonefibre.analysis.study.RecordingResult;
import org.lonefibre.analysis.study.SignalMeasures;
import org.lonefibre.workbench.server.Json;

/**
 * Two readings of one study beside each other.
 *
 * <ul>
 *   <li>Compared are the potentials that the second reader judged; the others keep the automatic
 *       grade in both verdicts.
 *   <li>A site that one of the two had measured otherwise is left out and counted: its potentials
 *       have other names.
 * </ul>
 */
final class Comparison {

  private final OpenStudy first;
  private final OpenStudy second;
  private final List<Agreement.Answers> answers = new ArrayList<>();
  private final ArrayNode potentials = Json.object().putArray("potentials");
  private final ArrayNode signals = Json.object().putArray("signals");
  private int otherwise;
  private int notJudged;

  private Comparison(OpenStudy first, OpenStudy second) {
    this.first = first;
    this.second = second;
  }

  static ObjectNode of(OpenStudy first, OpenStudy second) {
    return new Comparison(first, second).view();
  }

  private ObjectNode view() {
    ObjectNode view = Json.object();
    view.put("study", second.kept().id());
    view.put("title", second.kept().title());
    view.put("state", Objects.requireNonNull(second.reading()).state());
    if (Objects.requireNonNull(second.reading()).hidesGrades()) {
      return view;
    }
    Examination one = Objects.requireNonNull(first.current());
    Examination other = Objects.requireNonNull(second.current());
    ArrayNode verdicts = view.putArray("verdicts");
    for (int p = 0; p < Math.min(one.studies().size(), other.studies().size()); p++) {
      List<RecordingResult> sites = one.studies().get(p).recordings();
      int both = Math.min(sites.size(), other.studies().get(p).recordings().size());
      for (int s = 0; s < both; s++) {
        site(p, s, sites.get(s), other.studies().get(p).recordings().get(s));
      }
      ObjectNode verdict = verdicts.addObject();
      verdict.set("first", Json.tree(one.studies().get(p).summary().verdictByFullGrade()));
      verdict.set("second", Json.tree(other.studies().get(p).summary().verdictByFullGrade()));
      verdict.put("firstMeanJitterUs", one.studies().get(p).summary().meanJitterUs());
      verdict.put("secondMeanJitterUs", other.studies().get(p).summary().meanJitterUs());
    }
    view.set("agreement", Json.tree(Agreement.of(answers)));
    view.put("notJudged", notJudged);
    view.put("sitesMeasuredOtherwise", otherwise);
    view.set("potentials", potentials);
    view.set("signals", signals);
    return view;
  }

  private void site(int part, int number, RecordingResult one, RecordingResult other) {
    SiteSteps steps = SiteSteps.of(second.steps(), Desk.siteKey(part, number));
    if (!Desk.measurement(first, part, number).equals(steps.measurement())) {
      otherwise++;
      return;
    }
    Map<String, Grade> judged = new HashMap<>();
    for (Decision decision : steps.ofKept()) {
      if (decision instanceof Decision.Grading grading) {
        judged.put(grading.potential(), grading.grade());
      }
    }
    for (PotentialResult potential : potentials(one)) {
      Grade grade = judged.get(potential.id());
      if (grade == null) {
        notJudged++;
        continue;
      }
      String before = Json.tree(potential.grade()).asText();
      String after = Json.tree(grade).asText();
      answers.add(new Agreement.Answers(before, after));
      potentials
          .addObject()
          .put("site", one.site())
          .put("potential", potential.id())
          .put("first", before)
          .put("second", after);
    }
    Map<String, SignalMeasures> seconds = new HashMap<>();
    other.signals().forEach(signal -> seconds.put(signal.id(), signal));
    for (SignalMeasures signal : one.signals()) {
      SignalMeasures its = seconds.get(signal.id());
      Double before = signal.jitterUs();
      Double after = its == null ? null : its.jitterUs();
      ObjectNode row = signals.addObject();
      row.put("site", one.site()).put("signal", signal.id());
      row.set("firstStatus", Json.tree(signal.status()));
      row.set("secondStatus", its == null ? null : Json.tree(its.status()));
      row.put("firstJitterUs", before).put("secondJitterUs", after);
      row.put("differenceUs", before == null || after == null ? null : after - before);
    }
  }

  private static List<PotentialResult> potentials(RecordingResult site) {
    List<PotentialResult> all = new ArrayList<>();
    if (site.motorUnits() != null) {
      site.motorUnits().forEach(unit -> all.addAll(unit.potentials()));
    }
    if (site.stimulation() != null) {
      all.addAll(site.stimulation().potentials());
    }
    return all;
  }
}
