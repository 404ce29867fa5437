package org.lonefibre.report.document;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.study.LimitsUsed;

/**
 * One study of a report, in the order in which it is read.
 *
 * @param words the language it is written in
 * @param number its number in the report, from 1
 * @param title muscle, side and activation
 * @param headlines the numbers that open it
 * @param claims what can be claimed
 * @param leftOut what was left out and why
 * @param technique how it was recorded and measured
 * @param signals all signals, in order of site
 * @param limits the limit set; null if nothing was compared
 * @param limitFacts the limit set in words, its source and status
 * @param meanJitterUs mean jitter of the statistics; null if there is none
 * @param files the raw files
 * @param findings findings of the study and its recordings
 */
public record StudyDocument(
    Words words,
    int number,
    String title,
    List<Headline> headlines,
    List<Statement> claims,
    List<LeftOut> leftOut,
    List<Fact> technique,
    List<SignalEntry> signals,
    @Nullable LimitsUsed limits,
    List<Fact> limitFacts,
    @Nullable Double meanJitterUs,
    List<SourceFile> files,
    List<FindingLine> findings) {

  /** Copies the lists. */
  public StudyDocument {
    headlines = List.copyOf(headlines);
    claims = List.copyOf(claims);
    leftOut = List.copyOf(leftOut);
    technique = List.copyOf(technique);
    signals = List.copyOf(signals);
    limitFacts = List.copyOf(limitFacts);
    files = List.copyOf(files);
    findings = List.copyOf(findings);
  }
}
