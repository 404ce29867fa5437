package org.lonefibre.workbench.study;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.HashMap;
import java.util.Map;
import org.lonefibre.analysis.study.Decision;
import org.lonefibre.analysis.study.RecordingResult;
import org.lonefibre.workbench.server.Json;

/**
 * A study that a second person reads: the recordings and the automatic measurement of another,
 * without its decisions.
 *
 * @param of identity of the study it is a reading of
 * @param state {@code blind} while grades are hidden, then {@code finished}
 */
public record Reading(String of, String state) {

  /** Kind of document. */
  static final String KIND = "reading";

  /** Whether grades are hidden. */
  public boolean hidesGrades() {
    return state.equals("blind");
  }

  /**
   * A site as a blind reader sees it: no grade but the reader's own, no finding, no exclusion that
   * follows from a grade.
   */
  public static ObjectNode blind(OpenStudy study, int part, int site, RecordingResult now) {
    Map<String, String> own = new HashMap<>();
    for (Decision decision : SiteSteps.of(study.steps(), Desk.siteKey(part, site)).ofKept()) {
      if (decision instanceof Decision.Grading grading) {
        own.put(grading.potential(), Json.tree(grading.grade()).asText());
      }
    }
    ObjectNode view = (ObjectNode) Json.tree(now);
    view.putArray("findings");
    for (JsonNode unit : view.path("motorUnits")) {
      hide(unit, "pairs", own);
    }
    if (view.path("stimulation").isObject()) {
      hide(view.path("stimulation"), "endPlates", own);
    }
    return view;
  }

  private static void hide(JsonNode unit, String signals, Map<String, String> own) {
    ((ObjectNode) unit).putArray("findings");
    for (JsonNode node : unit.path("potentials")) {
      ObjectNode potential = (ObjectNode) node;
      String grade = own.getOrDefault(potential.path("id").asText(), "ungraded");
      potential.put("grade", grade).put("gradeByTradeRules", grade);
      potential.putNull("singleFibreProbability").putArray("findings");
    }
    for (JsonNode node : unit.path(signals)) {
      ((ObjectNode) node).put("status", "measured").putArray("findings");
    }
  }
}
