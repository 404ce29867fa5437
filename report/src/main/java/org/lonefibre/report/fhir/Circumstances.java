package org.lonefibre.report.fhir;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.time.DateTimeException;
import java.time.Instant;
import java.time.LocalDate;
import java.util.Optional;
import org.lonefibre.analysis.study.Examination;
import org.lonefibre.report.document.Closing;

/** What all resources of a bundle share: who, when, how far it is settled. */
record Circumstances(FhirVersion version, Examination examination, Closing closing) {

  /** Final only while a signature covers what is written here. */
  String status() {
    Closing.Seal seal = closing.seal();
    if (seal == null || seal.changedSince()) {
      return "preliminary";
    }
    return seal.version() > 1 ? "amended" : "final";
  }

  /** When it was settled, or else analysed. */
  String issued() {
    Closing.Seal seal = closing.seal();
    String time = seal == null ? examination.createdAt() : seal.signedAt();
    try {
      return Instant.parse(time.endsWith("Z") ? time : time + "Z").toString();
    } catch (DateTimeException e) {
      throw new IllegalArgumentException(
          "createdAt: expected a UTC time such as 2026-03-14T10:22:31Z, found \"" + time + "\"", e);
    }
  }

  /** The subject by its code: which person that is, only the laboratory knows. */
  void putSubject(ObjectNode resource) {
    String code = examination.subject().code();
    ObjectNode subject = Elements.display(code == null ? "subject without code" : code);
    if (code != null) {
      ObjectNode identifier = Elements.object();
      identifier.put("system", LocalCode.SUBJECTS).put("value", Elements.text(code));
      subject.set("identifier", identifier);
    }
    resource.set("subject", subject);
  }

  void putTimes(ObjectNode resource) {
    visitDate().ifPresent(date -> resource.put("effectiveDateTime", date.toString()));
    resource.put("issued", issued());
  }

  void putPerformer(ObjectNode resource) {
    String examiner = examination.visit().examiner();
    if (examiner != null && !examiner.isBlank()) {
      resource.set("performer", Elements.listOf(Elements.display(examiner)));
    }
  }

  private Optional<LocalDate> visitDate() {
    String date = examination.visit().date();
    try {
      return date == null ? Optional.empty() : Optional.of(LocalDate.parse(date.strip()));
    } catch (DateTimeException e) {
      return Optional.empty(); // as written, it still stands in the report
    }
  }
}
