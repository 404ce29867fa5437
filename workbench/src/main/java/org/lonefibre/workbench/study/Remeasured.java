package org.lonefibre.workbench.study;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.lonefibre.analysis.study.Decision;
import org.lonefibre.analysis.study.Examination;
import org.lonefibre.analysis.study.RecordingResult;
import org.lonefibre.analysis.study.Study;
import org.lonefibre.report.document.AnalysisJson;
import org.lonefibre.store.Store;
import org.lonefibre.workbench.declaration.Analyst;
import org.lonefibre.workbench.server.Refusal;

/**
 * Sites that were measured again from their recordings because a person wanted them otherwise. Each
 * measurement is kept as a document beside the automatic result, under what it was measured with;
 * undo and redo find it there.
 */
final class Remeasured {

  private static final int MOST_AT_HAND = 12;

  private final Store store;
  private final Analyst analyst;
  private final Map<String, RecordingResult> atHand =
      new LinkedHashMap<>(16, 0.75f, true) {
        private static final long serialVersionUID = 1L;

        @Override
        protected boolean removeEldestEntry(Map.Entry<String, RecordingResult> eldest) {
          return size() > MOST_AT_HAND;
        }
      };

  Remeasured(Store store, Analyst analyst) {
    this.store = store;
    this.analyst = analyst;
  }

  private static String kind(String site, SiteSteps steps) {
    return "site " + site + " measured again, " + steps.measurement();
  }

  /** The site as measured with the steps: the automatic one, or what is kept. */
  RecordingResult site(String study, Analyst.Known known, int part, int number, SiteSteps steps) {
    RecordingResult automatic = Desk.site(known.result(), part, number);
    if (steps.ofSamples().isEmpty()) {
      return automatic;
    }
    String kind = kind(Desk.siteKey(part, number), steps);
    RecordingResult there = atHand.get(study + kind);
    if (there == null) {
      there =
          store
              .studies()
              .findDocument(study, kind)
              .map(Remeasured::read)
              .orElseThrow(
                  () -> new Refusal(409, "The measurement this step rests on is not kept."));
      atHand.put(study + kind, there);
    }
    return there;
  }

  /** Measures a site; what it gives is not kept yet. */
  RecordingResult measure(
      Analyst.Known known, int part, int number, List<Decision.OfSamples> decisions)
      throws IOException {
    return analyst.remeasure(
        known,
        part,
        Desk.site(known.result(), part, number),
        source -> store.file(store.studies().findRecording(source.sha256()).orElseThrow()),
        decisions);
  }

  /** Keeps a measurement. */
  void keep(
      String study,
      Examination automatic,
      int part,
      int number,
      SiteSteps steps,
      RecordingResult result,
      String reason,
      String actor)
      throws IOException {
    String kind = kind(Desk.siteKey(part, number), steps);
    if (store.studies().findDocumentHash(study, kind).isEmpty()) {
      store
          .studies()
          .keepAnalysis(
              study, Map.of(), Map.of(kind, write(automatic, part, result)), actor, reason);
    }
    atHand.put(study + kind, result);
  }

  private static String write(Examination automatic, int part, RecordingResult result)
      throws IOException {
    Study of = automatic.studies().get(part);
    ByteArrayOutputStream json = new ByteArrayOutputStream(1 << 18);
    AnalysisJson.write(
        new Examination(
            automatic.schema(),
            automatic.producedBy(),
            automatic.createdAt(),
            automatic.settings(),
            automatic.subject(),
            automatic.visit(),
            List.of(
                new Study(
                    of.muscle(),
                    of.side(),
                    of.activation(),
                    of.needle(),
                    List.of(result),
                    of.summary())),
            List.of(),
            automatic.chain()),
        json);
    return json.toString(StandardCharsets.UTF_8);
  }

  private static RecordingResult read(String text) {
    try {
      return AnalysisJson.read("measurement", text.getBytes(StandardCharsets.UTF_8))
          .studies()
          .get(0)
          .recordings()
          .get(0);
    } catch (IOException e) {
      throw new Refusal(
          409, "The measurement this step rests on cannot be read: " + e.getMessage());
    }
  }
}
