package org.lonefibre.workbench.study;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.lonefibre.analysis.study.Examination;
import org.lonefibre.report.document.AnalysisJson;
import org.lonefibre.signal.recording.RecordingFormatException;
import org.lonefibre.store.studies.SignedVersion;
import org.lonefibre.workbench.server.Json;

/**
 * A study as canonical JSON, to be sealed: hashes of the raw files, settings, grades, limits,
 * version of the program, decisions and what the physician wrote. Names are in order; the same
 * study always gives the same text.
 */
final class SealedStudy {

  private SealedStudy() {}

  static String text(OpenStudy study, Map<String, String> notes) {
    ObjectNode sealed = Json.object();
    sealed.put("schema", "lonefibre-signed-study-1");
    sealed.put("study", study.kept().id());
    sealed.put("title", study.kept().title());
    sealed.put("revision", study.kept().revision());
    sealed.set("declaration", Json.tree(study.declaration()));
    sealed.set("result", Json.tree(java.util.Objects.requireNonNull(study.current())));
    sealed.set("decisions", Json.tree(study.activeSteps()));
    sealed.set("notes", Json.tree(new TreeMap<>(notes)));
    return Json.text(sealed);
  }

  /**
   * The result as it was sealed last.
   *
   * @throws RecordingFormatException if the sealed text holds none
   */
  static Examination result(List<SignedVersion> versions) throws RecordingFormatException {
    JsonNode sealed =
        Json.read(versions.get(versions.size() - 1).content(), JsonNode.class).path("result");
    return AnalysisJson.read("signed study", Json.bytes(sealed));
  }
}
