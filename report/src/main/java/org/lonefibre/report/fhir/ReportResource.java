package org.lonefibre.report.fhir;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.ArrayList;
import java.util.List;
import org.lonefibre.report.document.Closing;
import org.lonefibre.report.document.ReportDocument;

/** The report that holds all studies together, with the PDF beside it. */
final class ReportResource {

  private ReportResource() {}

  static ObjectNode of(
      Circumstances circumstances,
      ReportDocument document,
      List<String> studyUrls,
      String binaryUrl,
      byte[] pdf) {
    Closing closing = circumstances.closing();
    ObjectNode report = Elements.resource("DiagnosticReport");
    List<String> lines = new ArrayList<>();
    lines.add("Jitter study, " + document.identity());
    document.studies().forEach(study -> lines.add(study.title()));
    lines.addAll(document.cautions());
    report.set("text", Elements.narrative(lines));
    report.put("status", circumstances.status());
    report.set(
        "category",
        Elements.listOf(
            Elements.concept(
                Elements.coding("http://terminology.hl7.org/CodeSystem/v2-0074", "EN"))));
    report.set(
        "code",
        Elements.concept(Elements.coding("http://loinc.org", "18749-2"))
            .put("text", "Single-fibre EMG, jitter study"));
    circumstances.putSubject(report);
    circumstances.putTimes(report);
    circumstances.putPerformer(report);
    if (!studyUrls.isEmpty()) {
      ArrayNode results = report.putArray("result");
      studyUrls.forEach(url -> results.add(Elements.reference(url)));
    }
    if (closing.comment() != null && circumstances.version() == FhirVersion.R5) {
      report.set("note", Elements.listOf(Elements.words("Comment: " + closing.comment())));
    }
    String conclusion = conclusion(circumstances);
    if (!conclusion.isEmpty()) {
      report.put("conclusion", Elements.text(conclusion));
    }
    report.set(
        "presentedForm",
        Elements.listOf(attachment(circumstances.version(), document, binaryUrl, pdf)));
    return report;
  }

  private static ObjectNode attachment(
      FhirVersion version, ReportDocument document, String url, byte[] pdf) {
    ObjectNode attachment = Elements.object();
    attachment.put("contentType", "application/pdf").put("url", url);
    if (version == FhirVersion.R4) {
      attachment.put("size", pdf.length);
    } else {
      attachment.put("size", Integer.toString(pdf.length)); // integer64 is written as a string
    }
    attachment.put("hash", sha1(pdf));
    return attachment.put("title", Elements.text("Jitter study, " + document.identity()));
  }

  /** Release 4 has no place for a comment but before the conclusion. */
  private static String conclusion(Circumstances circumstances) {
    Closing closing = circumstances.closing();
    String conclusion = closing.conclusion() == null ? "" : closing.conclusion();
    String comment = closing.comment();
    return comment == null || circumstances.version() == FhirVersion.R5
        ? conclusion
        : "Comment: " + comment + (conclusion.isEmpty() ? "" : "\nConclusion: " + conclusion);
  }

  /** The standard asks for SHA-1 here. */
  private static byte[] sha1(byte[] bytes) {
    try {
      return MessageDigest.getInstance("SHA-1").digest(bytes);
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java has SHA-1", e);
    }
  }
}
