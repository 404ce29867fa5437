package org.lonefibre.report.document;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.study.LimitsUsed;
import org.lonefibre.analysis.study.RecordingResult;
import org.lonefibre.analysis.study.Study;
import org.lonefibre.analysis.study.Visit;

/** Arranges one study in the order in which it is read. */
final class StudyDocuments {

  private StudyDocuments() {}

  static StudyDocument of(int number, Study study, Visit visit) {
    List<SignalEntry> signals = SignalEntries.of(study);
    return new StudyDocument(
        number,
        title(study),
        Claims.headlines(study),
        Claims.of(study),
        LeftOutList.of(study, signals),
        Technique.of(study, visit),
        signals,
        study.summary().limits(),
        limitFacts(study.summary().limits()),
        study.summary().meanJitterUs(),
        files(study.recordings()),
        FindingLines.ofStudy(study));
  }

  private static String title(Study study) {
    return Words.capital(Words.muscle(study.muscle()))
        + ", "
        + Words.side(study.side())
        + ", "
        + Words.activation(study.activation())
        + ", "
        + (study.needle() == null ? "needle not recorded" : Words.needle(study.needle()));
  }

  private static List<Fact> limitFacts(@Nullable LimitsUsed limits) {
    if (limits == null) {
      return List.of(Fact.of("Limit set", "none: nothing was compared"));
    }
    Double centre = limits.centreUs();
    Double individual = limits.individualUs();
    List<Fact> facts = new ArrayList<>();
    facts.add(Fact.of("Limit set", limits.set()));
    facts.add(
        Fact.of(
            "Limit of the centre",
            centre == null
                ? "none in this set"
                : limits.centreStatistic() + " " + Rounded.shortest(centre, 1) + " µs"));
    facts.add(
        Fact.of(
            "Limit of a single signal",
            individual == null ? "none in this set" : Rounded.shortest(individual, 1) + " µs"));
    facts.add(Fact.of("Rule for single signals", Words.typeset(limits.outlierRule())));
    facts.add(Fact.of("Source", limits.source()));
    facts.add(Fact.of("Status of the values", limits.status()));
    return facts;
  }

  private static List<SourceFile> files(List<RecordingResult> recordings) {
    Map<String, SourceFile> files = new LinkedHashMap<>();
    for (RecordingResult recording : recordings) {
      SourceFile one =
          new SourceFile(
              recording.file(), recording.sha256(), recording.format(), List.of(use(recording)));
      files.merge(recording.file() + " " + recording.sha256(), one, StudyDocuments::joined);
    }
    return List.copyOf(files.values());
  }

  private static SourceFile joined(SourceFile first, SourceFile second) {
    List<String> uses = new ArrayList<>(first.uses());
    uses.addAll(second.uses());
    return new SourceFile(first.name(), first.sha256(), first.format(), uses);
  }

  private static String use(RecordingResult recording) {
    return recording.site()
        + ": channel "
        + recording.channel()
        + ", "
        + Rounded.decimals(recording.startS(), 1)
        + " to "
        + Rounded.decimals(recording.endS(), 1)
        + " s, "
        + Rounded.frequency(recording.samplingRateHz())
        + ", noise "
        + Rounded.voltage(recording.noiseUv());
  }
}
