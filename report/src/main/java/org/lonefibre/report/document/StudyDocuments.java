package org.lonefibre.report.document;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.study.Examination;
import org.lonefibre.analysis.study.LimitsUsed;
import org.lonefibre.analysis.study.RecordingResult;
import org.lonefibre.analysis.study.Study;

/** Arranges one study in the order in which it is read. */
final class StudyDocuments {

  private StudyDocuments() {}

  static StudyDocument of(int number, Study study, Examination examination, Words words) {
    List<SignalEntry> signals = SignalEntries.of(study, words);
    return new StudyDocument(
        words,
        number,
        title(study, words),
        Claims.headlines(study, words),
        Claims.of(study, words),
        LeftOutList.of(study, signals, words),
        Technique.of(study, examination, words),
        signals,
        study.summary().limits(),
        limitFacts(study.summary().limits(), words),
        study.summary().meanJitterUs(),
        files(study.recordings(), words),
        new FindingLines(words).ofStudy(study));
  }

  private static String title(Study study, Words words) {
    return Words.capital(words.muscle(study.muscle()))
        + ", "
        + words.side(study.side())
        + ", "
        + words.activation(study.activation())
        + ", "
        + (study.needle() == null
            ? words.say("needle-not-recorded")
            : words.needle(study.needle()));
  }

  private static List<Fact> limitFacts(@Nullable LimitsUsed limits, Words words) {
    if (limits == null) {
      return List.of(Fact.of(words.say("limits.set"), words.say("limits.none")));
    }
    Double centre = limits.centreUs();
    Double individual = limits.individualUs();
    String none = words.say("limits.not-in-set");
    return List.of(
        Fact.quoted(words.say("limits.set"), limits.set()),
        Fact.of(
            words.say("limits.centre"),
            centre == null
                ? none
                : words.statistic(limits.centreStatistic())
                    + " "
                    + Rounded.shortest(centre, 1)
                    + " µs"),
        Fact.of(
            words.say("limits.single"),
            individual == null ? none : Rounded.shortest(individual, 1) + " µs"),
        Fact.of(words.say("limits.rule"), words.outlierRule(limits.outlierRule())),
        Fact.quoted(words.say("limits.source"), limits.source()),
        Fact.of(words.say("limits.status"), words.limitStatus(limits.status())));
  }

  private static List<SourceFile> files(List<RecordingResult> recordings, Words words) {
    Map<String, SourceFile> files = new LinkedHashMap<>();
    for (RecordingResult recording : recordings) {
      SourceFile one =
          new SourceFile(
              recording.file(),
              recording.sha256(),
              recording.format(),
              List.of(use(recording, words)));
      files.merge(recording.file() + " " + recording.sha256(), one, StudyDocuments::joined);
    }
    return List.copyOf(files.values());
  }

  private static SourceFile joined(SourceFile first, SourceFile second) {
    List<String> uses = new ArrayList<>(first.uses());
    uses.addAll(second.uses());
    return new SourceFile(first.name(), first.sha256(), first.format(), uses);
  }

  private static String use(RecordingResult recording, Words words) {
    Double noise = recording.noiseUv();
    return words.say(
        "use-of-file",
        recording.site(),
        recording.channel(),
        Rounded.decimals(recording.startS(), 1),
        Rounded.decimals(recording.endS(), 1),
        Rounded.frequency(recording.samplingRateHz()),
        noise == null ? words.say("uncalibrated") : Rounded.voltage(noise));
  }
}
