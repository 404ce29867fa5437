package org.lonefibre.report.document;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.IntStream;
import org.lonefibre.analysis.study.Examination;
import org.lonefibre.analysis.study.Refusal;
import org.lonefibre.analysis.study.SettingsStamp;
import org.lonefibre.analysis.study.Subject;
import org.lonefibre.analysis.study.Visit;

/**
 * A whole report, before it takes a shape.
 *
 * @param words the language it is written in
 * @param identity who and when in one line, printed on every page
 * @param madeAt UTC time of the result, or of its signature, ISO 8601
 * @param provenance whether the data are invented
 * @param subject the person examined and the visit
 * @param opinion what the physician wrote; empty if nobody has written anything
 * @param studies the studies
 * @param chain the test of the machine and its export; empty if none was named
 * @param refused files that were refused
 * @param making what made the report: program, settings, time
 * @param seal who signed what and when; empty if nobody has signed
 * @param settings every setting in force
 * @param cautions what every result must be read with
 */
public record ReportDocument(
    Words words,
    String identity,
    String madeAt,
    Provenance provenance,
    List<Fact> subject,
    List<Fact> opinion,
    List<StudyDocument> studies,
    List<Fact> chain,
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
    EXAMINATION;

    /** Where the data of a subject come from. */
    public static Provenance of(Subject subject) {
      String code = subject.code();
      return code != null && code.toUpperCase(Locale.ROOT).startsWith("DEMO") ? DEMO : EXAMINATION;
    }
  }

  private static final int CAUTIONS = 5;

  /** Copies the lists. */
  public ReportDocument {
    subject = List.copyOf(subject);
    opinion = List.copyOf(opinion);
    studies = List.copyOf(studies);
    chain = List.copyOf(chain);
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

  /** Arranges a result for reading in English, with what people added to it. */
  public static ReportDocument of(Examination examination, Closing closing) {
    return of(examination, closing, Language.ENGLISH);
  }

  /** Arranges a result for reading, with what people added to it. */
  public static ReportDocument of(Examination examination, Closing closing, Language language) {
    Words words = Words.of(language);
    List<StudyDocument> studies = new ArrayList<>();
    for (int i = 0; i < examination.studies().size(); i++) {
      studies.add(StudyDocuments.of(i + 1, examination.studies().get(i), examination, words));
    }
    return new ReportDocument(
        words,
        identity(examination, words)
            + (closing.state() == null ? "" : " · " + closing.standing(words)),
        closing.seal() == null ? examination.createdAt() : closing.seal().signedAt(),
        Provenance.of(examination.subject()),
        subjectFacts(examination, closing, words),
        ClosingFacts.words(closing, words),
        studies,
        ChainFacts.of(examination, words),
        examination.refused(),
        List.of(
            Fact.of(
                words.say("report.program"),
                examination.producedBy().name() + " " + examination.producedBy().version()),
            Fact.of(words.say("report.analysed-at"), examination.createdAt()),
            Fact.of(words.say("report.settings-version"), examination.settings().version()),
            Fact.of(words.say("report.settings-hash"), examination.settings().hash()),
            Fact.of(words.say("report.document"), examination.schema()),
            closing.decisions() == null
                ? Fact.of(words.say("report.decisions"), words.say("report.decisions.none"))
                : Fact.quoted(words.say("report.decisions"), closing.decisions())),
        ClosingFacts.seal(closing.seal(), words),
        examination.settings().entries(),
        IntStream.rangeClosed(1, CAUTIONS).mapToObj(i -> words.say("caution." + i)).toList());
  }

  private static String identity(Examination examination, Words words) {
    String code = examination.subject().code();
    String date = examination.visit().date();
    return (Provenance.of(examination.subject()) == Provenance.DEMO
            ? words.say("identity.demo")
            : "")
        + (code == null ? words.say("identity.no-code") : words.say("identity.subject", code))
        + (date == null ? "" : words.say("identity.visit", date));
  }

  private static List<Fact> subjectFacts(Examination examination, Closing closing, Words words) {
    Subject subject = examination.subject();
    Visit visit = examination.visit();
    Double age = subject.ageYears();
    List<Fact> facts = new ArrayList<>();
    facts.add(Fact.of(words.say("report.subject"), words.declared(subject.code())));
    facts.add(
        Fact.of(
            words.say("report.age"),
            age == null ? words.notRecorded() : words.say("years", Rounded.shortest(age, 1))));
    facts.add(Fact.of(words.say("report.visit"), words.declared(visit.date())));
    facts.add(Fact.of(words.say("report.examiner"), words.declared(visit.examiner())));
    if (closing.title() != null) {
      facts.add(Fact.of(words.say("report.study"), closing.title()));
    }
    if (closing.state() != null) {
      facts.add(Fact.of(words.say("report.state"), closing.standing(words)));
    }
    return facts;
  }
}
