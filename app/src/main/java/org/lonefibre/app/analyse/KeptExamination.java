package org.lonefibre.app.analyse;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.lonefibre.analysis.study.Examination;
import org.lonefibre.analysis.study.RecordingResult;
import org.lonefibre.analysis.study.Study;
import org.lonefibre.app.declaration.DeclaredExamination;
import org.lonefibre.app.declaration.DeclaredRecording;
import org.lonefibre.app.declaration.DeclaredStudy;
import org.lonefibre.report.document.AnalysisJson;
import org.lonefibre.store.Store;
import org.lonefibre.store.recordings.KeptRecording;
import org.lonefibre.store.studies.KeptStudy;
import org.lonefibre.workbench.declaration.Declaration;
import org.lonefibre.workbench.declaration.Part;
import org.lonefibre.workbench.declaration.Source;
import org.lonefibre.workbench.server.Json;
import org.lonefibre.workbench.study.Desk;

/** Puts an analysed examination and its recordings into the store, as the workbench does. */
final class KeptExamination {

  private final Store store;
  private final String actor;

  KeptExamination(Store store, String actor) {
    this.store = store;
    this.actor = actor;
  }

  KeptStudy keep(DeclaredExamination declared, Examination examination) throws IOException {
    Map<Path, KeptRecording> byPath = new HashMap<>();
    Map<KeptRecording, String> names = new LinkedHashMap<>();
    List<Part> parts = new ArrayList<>();
    for (int s = 0; s < declared.studies().size(); s++) {
      DeclaredStudy study = declared.studies().get(s);
      List<Source> sources = new ArrayList<>();
      for (DeclaredRecording recording : study.recordings()) {
        if (isAnalysed(examination.studies().get(s), recording)) {
          sources.add(source(recording, byPath, names));
        }
      }
      parts.add(
          new Part(
              study.muscle(),
              study.side(),
              study.needle(),
              study.activation(),
              study.limits(),
              sources));
    }
    Declaration declaration =
        new Declaration(
            declared.subject().code(), declared.subject().ageYears(), declared.visit(), parts);
    ByteArrayOutputStream json = new ByteArrayOutputStream(1 << 20);
    AnalysisJson.write(examination, json);
    Map<String, String> documents = new LinkedHashMap<>();
    documents.put(Desk.DECLARATION, Json.text(declaration));
    documents.put(Desk.AUTOMATIC, json.toString(StandardCharsets.UTF_8));
    KeptStudy kept =
        store
            .studies()
            .create(title(declared), declaration.subjectCode(), provenance(declaration), actor);
    store.studies().keepAnalysis(kept.id(), names, documents, actor, "");
    return kept;
  }

  private static boolean isAnalysed(Study study, DeclaredRecording recording) {
    String name = String.valueOf(recording.path().getFileName());
    return study.recordings().stream().map(RecordingResult::file).anyMatch(name::equals);
  }

  private Source source(
      DeclaredRecording recording,
      Map<Path, KeptRecording> byPath,
      Map<KeptRecording, String> names)
      throws IOException {
    Path path = recording.path().toAbsolutePath().normalize();
    String name = String.valueOf(path.getFileName());
    KeptRecording kept = byPath.get(path);
    if (kept == null) {
      try (InputStream in = Files.newInputStream(path)) {
        kept = store.keepRecording(in, name, Long.MAX_VALUE);
      }
      byPath.put(path, kept);
      names.put(kept, name);
    }
    return new Source(
        kept.sha256(),
        name,
        recording.site(),
        recording.channel(),
        recording.stimulusChannel(),
        recording.startS(),
        recording.endS());
  }

  private static String title(DeclaredExamination declared) {
    List<String> muscles =
        declared.studies().stream()
            .map(study -> study.muscle() == null ? "muscle not given" : study.muscle())
            .distinct()
            .toList();
    String date = declared.visit().date();
    return String.join(", ", muscles) + (date == null ? "" : ", " + date);
  }

  private static String provenance(Declaration declaration) {
    String code = declaration.subjectCode();
    return code != null && code.toUpperCase(Locale.ROOT).startsWith("DEMO")
        ? "demo"
        : "examination";
  }
}
