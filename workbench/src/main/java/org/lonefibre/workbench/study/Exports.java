package org.lonefibre.workbench.study;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.lonefibre.analysis.study.Examination;
import org.lonefibre.report.csv.IntervalsCsv;
import org.lonefibre.report.csv.SignalsCsv;
import org.lonefibre.report.document.AnalysisJson;
import org.lonefibre.report.document.Fact;
import org.lonefibre.report.document.ReportDocument;
import org.lonefibre.report.html.HtmlReport;
import org.lonefibre.report.pdf.PdfReport;
import org.lonefibre.store.studies.SignedVersion;
import org.lonefibre.workbench.server.Refusal;

/** A study as files: the result in force, with the physician's words and signature. */
public final class Exports {

  /** Names of the exports of a study that is not signed. */
  public static final List<String> NAMES =
      List.of("analysis.json", "report.html", "report.pdf", "signals.csv", "intervals.csv");

  /**
   * A file to be handed over. The bytes are nobody else's.
   *
   * @param fileName its name
   * @param type its media type
   * @param bytes its content
   */
  public record Document(String fileName, String type, byte[] bytes) {}

  private Exports() {}

  /**
   * One export.
   *
   * @param format one of {@link #NAMES}, or {@code signed.json} of a signed study
   * @param notes what the physician wrote
   * @throws Refusal if there is no such export, nothing to export yet, or grades are hidden
   */
  public static Document of(
      String format, OpenStudy study, Map<String, String> notes, List<SignedVersion> versions)
      throws IOException {
    study.requireGrades();
    Examination result = study.current();
    if (result == null) {
      throw new Refusal(409, "There is no result yet: import recordings first.");
    }
    return switch (format) {
      case "report.html" ->
          new Document(
              format, "text/html; charset=utf-8", utf8(html(study, result, notes, versions)));
      case "report.pdf" ->
          new Document(
              format,
              "application/pdf",
              new PdfReport().render(html(study, result, notes, versions)));
      case "analysis.json" -> {
        ByteArrayOutputStream json = new ByteArrayOutputStream(1 << 20);
        AnalysisJson.write(result, json);
        yield new Document(format, "application/json", json.toByteArray());
      }
      case "signals.csv" -> csv(format, SignalsCsv.of(result));
      case "intervals.csv" -> csv(format, IntervalsCsv.of(result));
      case "signed.json" -> {
        if (versions.isEmpty()) {
          throw new Refusal(409, "The study is not signed.");
        }
        yield new Document(
            format, "application/json", utf8(versions.get(versions.size() - 1).content()));
      }
      default -> throw new Refusal(404, "There is no such export.");
    };
  }

  private static Document csv(String name, String text) {
    return new Document(name, "text/csv; charset=utf-8", utf8(text));
  }

  private static byte[] utf8(String text) {
    return text.getBytes(StandardCharsets.UTF_8);
  }

  private static String html(
      OpenStudy study,
      Examination result,
      Map<String, String> notes,
      List<SignedVersion> versions) {
    ReportDocument plain = ReportDocument.of(result);
    List<Fact> subject = new ArrayList<>(plain.subject());
    subject.add(Fact.of("Study", study.kept().title()));
    subject.add(Fact.of("State", state(study, versions)));
    List<Fact> making = new ArrayList<>(plain.making());
    add(making, "Comment of the physician", notes.get("comment"));
    add(making, "Conclusion of the physician", notes.get("conclusion"));
    making.add(Fact.of("Decisions by a person", decisions(study)));
    if (!versions.isEmpty()) {
      SignedVersion last = versions.get(versions.size() - 1);
      making.add(
          Fact.of(
              "Signed",
              last.signer()
                  + ", "
                  + last.signedAt()
                  + " UTC, "
                  + last.meaning()
                  + ". An integrity seal, not a qualified electronic signature."));
      making.add(Fact.of("Sealed text, SHA-256", last.sha256()));
    }
    return new HtmlReport()
        .render(
            new ReportDocument(
                plain.identity() + " · " + state(study, versions),
                plain.provenance(),
                subject,
                plain.studies(),
                plain.refused(),
                making,
                plain.settings(),
                plain.cautions()));
  }

  private static String state(OpenStudy study, List<SignedVersion> versions) {
    return switch (study.kept().state()) {
      case "signed" -> "signed, version " + versions.size();
      case "amended" -> "amended after signed version " + versions.size() + ", not signed";
      default -> "not signed";
    };
  }

  private static String decisions(OpenStudy study) {
    if (study.activeSteps().isEmpty()) {
      return "none: the automatic result";
    }
    StringBuilder all = new StringBuilder();
    study
        .activeSteps()
        .forEach(
            step ->
                all.append(all.isEmpty() ? "" : "; ")
                    .append(step.stepName())
                    .append(" (")
                    .append(step.reason())
                    .append(", ")
                    .append(step.actor())
                    .append(')'));
    return all.toString();
  }

  private static void add(
      List<Fact> facts, String name, @org.jspecify.annotations.Nullable String text) {
    if (text != null && !text.isBlank()) {
      facts.add(Fact.of(name, text));
    }
  }
}
