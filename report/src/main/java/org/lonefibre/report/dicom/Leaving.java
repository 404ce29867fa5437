package org.lonefibre.report.dicom;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.study.Examination;
import org.lonefibre.analysis.study.Visit;
import org.lonefibre.report.document.Closing;
import org.lonefibre.report.document.Words;

/** What would leave this computer with a report, to be read before it is sent. */
public final class Leaving {

  /**
   * One thing that would leave.
   *
   * @param name what it is
   * @param value as it stands in the report, on one line; null if it is not there
   */
  public record Line(String name, @Nullable String value) {}

  private Leaving() {}

  /** All of it, the destination first. */
  public static List<Line> of(
      Pacs pacs, Examination examination, Closing closing, EncapsulatedPdf report) {
    List<Line> lines = new ArrayList<>();
    Visit visit = examination.visit();
    Double ageYears = examination.subject().ageYears();
    Closing.Seal seal = closing.seal();
    add(lines, "to", pacs.address() + " (" + pacs.way() + ")");
    add(lines, "login", pacs.login());
    add(lines, "object", "DICOM Encapsulated PDF, " + report.file().length + " bytes");
    add(lines, "identity", report.instanceUid());
    add(lines, "accession", report.accessionNumber());
    add(
        lines,
        "state",
        closing.state() == null ? "automatic result, not signed" : closing.standing(Words.ENGLISH));
    add(lines, "subject", examination.subject().code());
    add(lines, "age", ageYears == null ? null : ageYears + " years");
    add(lines, "visit", visit.date());
    add(lines, "examiner", visit.examiner());
    add(lines, "medication", visit.medication());
    add(lines, "note", visit.note());
    add(lines, "studies", Integer.toString(examination.studies().size()));
    add(lines, "comment", closing.comment());
    add(lines, "conclusion", closing.conclusion());
    add(lines, "signed by", seal == null ? null : seal.signer());
    return lines;
  }

  private static void add(List<Line> lines, String name, @Nullable String value) {
    String plain = value == null ? "" : value.replaceAll("[\\p{Cc}\\p{Cf}\\s]+", " ").strip();
    lines.add(new Line(name, plain.isEmpty() ? null : plain));
  }
}
