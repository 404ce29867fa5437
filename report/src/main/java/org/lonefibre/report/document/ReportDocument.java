package org.lonefibre.report.document;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.lonefibre.analysis.study.Examination;
import org.lonefibre.analysis.study.Refusal;
import org.lonefibre.analysis.study.SettingsStamp;
import org.lonefibre.analysis.study.Subject;
import org.lonefibre.analysis.study.Visit;

/**
 * A whole report, before it takes a shape.
 *
 * @param identity who and when in one line, printed on every page
 * @param madeAt UTC time of the result, or of its signature, ISO 8601
 * @param provenance whether the data are invented
 * @param subject the person examined and the visit
 * @param words what the physician wrote; empty if nobody has written anything
 * @param studies the studies
 * @param refused files that were refused
 * @param making what made the report: program, settings, time
 * @param seal who signed what and when; empty if nobody has signed
 * @param settings every setting in force
 * @param cautions what every result must be read with
 */
public record ReportDocument(
    String identity,
    String madeAt,
    Provenance provenance,
    List<Fact> subject,
    List<Fact> words,
    List<StudyDocument> studies,
    List<Refusal> refused,
    List<Fact> making,
    List<Fact> seal,
    List<SettingsStamp.Entry> settings,
    List<String> cautions) {

  /** Where the data come from. */
  public enum Provenance {
    /** The code of the subject starts with DEMO: invented data, marked on every page. */
    DEMO,
    /** Anything else. */
    EXAMINATION
  }

  private static final List<String> CAUTIONS =
      List.of(
          "Not a medical device. For teaching, research and quality work; a licensed physician"
              + " interprets, under local rules.",
          "Raised jitter is not specific: disease of nerve, end-plate and muscle all raise it.",
          "Limits hold only for the muscle, age, needle, filter and activation they were collected"
              + " with.",
          "Temperature, cholinesterase inhibitors, botulinum toxin, nerve and muscle disease change"
              + " jitter.",
          "Needle examination has its own contraindications (anticoagulation, infection, and"
              + " others): follow local practice.");

  /** Copies the lists. */
  public ReportDocument {
    subject = List.copyOf(subject);
    words = List.copyOf(words);
    studies = List.copyOf(studies);
    refused = List.copyOf(refused);
    making = List.copyOf(making);
    seal = List.copyOf(seal);
    settings = List.copyOf(settings);
    cautions = List.copyOf(cautions);
  }

  /** Arranges an automatic result for reading. */
  public static ReportDocument of(Examination examination) {
    return of(examination, Closing.NONE);
  }

  /** Arranges a result for reading, with what people added to it. */
  public static ReportDocument of(Examination examination, Closing closing) {
    List<StudyDocument> studies = new ArrayList<>();
    for (int i = 0; i < examination.studies().size(); i++) {
      studies.add(StudyDocuments.of(i + 1, examination.studies().get(i), examination.visit()));
    }
    return new ReportDocument(
        identity(examination) + (closing.state() == null ? "" : " · " + closing.state()),
        closing.seal() == null ? examination.createdAt() : closing.seal().signedAt(),
        provenance(examination.subject()),
        subjectFacts(examination, closing),
        ClosingFacts.words(closing),
        studies,
        examination.refused(),
        List.of(
            Fact.of(
                "Program",
                examination.producedBy().name() + " " + examination.producedBy().version()),
            Fact.of("Analysed at", examination.createdAt()),
            Fact.of("Settings, version", examination.settings().version()),
            Fact.of("Settings, SHA-256", examination.settings().hash()),
            Fact.of("Document", examination.schema()),
            Fact.of(
                "Decisions by a person",
                closing.decisions() == null ? "none: the automatic result" : closing.decisions())),
        ClosingFacts.seal(closing.seal()),
        examination.settings().entries(),
        CAUTIONS);
  }

  private static Provenance provenance(Subject subject) {
    String code = subject.code();
    return code != null && code.toUpperCase(Locale.ROOT).startsWith("DEMO")
        ? Provenance.DEMO
        : Provenance.EXAMINATION;
  }

  private static String identity(Examination examination) {
    String code = examination.subject().code();
    String date = examination.visit().date();
    return (provenance(examination.subject()) == Provenance.DEMO ? "DEMO, invented data · " : "")
        + (code == null ? "subject without code" : "subject " + code)
        + (date == null ? "" : " · visit " + date);
  }

  private static List<Fact> subjectFacts(Examination examination, Closing closing) {
    Subject subject = examination.subject();
    Visit visit = examination.visit();
    Double age = subject.ageYears();
    List<Fact> facts = new ArrayList<>();
    facts.add(Fact.of("Subject", Words.declared(subject.code())));
    facts.add(
        Fact.of("Age", age == null ? Words.NOT_RECORDED : Rounded.shortest(age, 1) + " years"));
    facts.add(Fact.of("Visit", Words.declared(visit.date())));
    facts.add(Fact.of("Examiner", Words.declared(visit.examiner())));
    if (closing.title() != null) {
      facts.add(Fact.of("Study", closing.title()));
    }
    if (closing.state() != null) {
      facts.add(Fact.of("State", closing.state()));
    }
    return facts;
  }
}
