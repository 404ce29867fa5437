package org.lonefibre.report.document;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.reference.BesideLimit;
import org.lonefibre.analysis.study.Criterion;
import org.lonefibre.analysis.study.LimitsUsed;
import org.lonefibre.analysis.study.ProgressFact;
import org.lonefibre.analysis.study.Study;
import org.lonefibre.analysis.study.StudyAlternative;
import org.lonefibre.analysis.study.StudyProgress;
import org.lonefibre.analysis.study.StudySummary;
import org.lonefibre.analysis.study.Verdict;
import org.lonefibre.report.document.Statement.Weight;
import org.lonefibre.signal.recording.FindingCode;
import org.lonefibre.signal.recording.Severity;

/**
 * What can be claimed: the comparison first, then what it rests on, then what it must be read with.
 */
final class Claims {

  private final Words words;
  private final Study study;
  private final StudySummary summary;
  private final List<Statement> statements = new ArrayList<>();

  private Claims(Study study, Words words) {
    this.words = words;
    this.study = study;
    this.summary = study.summary();
  }

  static List<Statement> of(Study study, Words words) {
    Claims claims = new Claims(study, words);
    claims.comparison();
    claims.bothVerdicts();
    claims.progress();
    claims.alternatives();
    claims.lowJitter();
    claims.cautions();
    return claims.statements;
  }

  static List<Headline> headlines(Study study, Words words) {
    StudySummary summary = study.summary();
    LimitsUsed limits = summary.limits();
    String centre = limits == null ? "none" : limits.centreStatistic();
    List<Headline> headlines = new ArrayList<>();
    headlines.add(centreHeadline(words, "mean", summary.meanJitterUs(), centre, limits));
    headlines.add(centreHeadline(words, "median", summary.medianJitterUs(), centre, limits));
    Integer above = summary.signalsAboveLimit();
    Double individual = limits == null ? null : limits.individualUs();
    headlines.add(
        new Headline(
            words.say("headline.above"),
            above == null ? Rounded.NONE : above.toString(),
            above == null ? "" : words.say("of-signals", summary.signals()),
            individual == null
                ? words.say("no-limit")
                : words.say("limit", Rounded.shortest(individual, 1))));
    headlines.add(
        new Headline(
            words.say("headline.blocking"),
            Integer.toString(summary.signalsWithBlocking()),
            words.say("of-signals", summary.signals()),
            summary.signalsAboveLimitOrBlocking() == null
                ? ""
                : words.say("above-or-blocking", summary.signalsAboveLimitOrBlocking())));
    headlines.add(
        new Headline(
            words.say("headline.left-out"),
            Integer.toString(summary.excludedSignals() + summary.unmeasurableSignals()),
            "",
            words.say("unmeasurable-of-them", summary.unmeasurableSignals())));
    return headlines;
  }

  private static Headline centreHeadline(
      Words words,
      String statistic,
      @Nullable Double value,
      String centre,
      @Nullable LimitsUsed limits) {
    Double limit = limits == null || !centre.equals(statistic) ? null : limits.centreUs();
    return new Headline(
        words.say("headline." + statistic),
        value == null
            ? Rounded.NONE
            : limit == null ? Rounded.jitter(value) : BesideLimit.text(value, limit),
        value == null ? "" : "µs",
        limit == null
            ? words.say(limits == null ? "no-limit" : "no-own-limit")
            : words.say("limit", Rounded.shortest(limit, 1)));
  }

  private void comparison() {
    if (summary.signals() == 0) {
      add(
          Weight.CAUTION,
          words.say("claim.nothing-measured"),
          words.say("claim.nothing-measured.text", words.count(study.recordings().size(), "site")));
    }
    LimitsUsed limits = summary.limits();
    if (summary.verdictByFullGrade() == Verdict.NOT_COMPARED || limits == null) {
      add(Weight.CAUTION, words.say("claim.not-compared"), whyNotCompared());
      return;
    }
    add(
        Weight.FACT,
        verdict(summary.verdictByFullGrade()),
        words.say(
            "claim.set",
            limits.set(),
            words.count(summary.signals(), "signal"),
            words.count(summary.sites(), "site")));
    for (Criterion criterion : summary.criteria()) {
      add(
          Weight.FACT,
          words.say(criterion.met() ? "claim.met" : "claim.not-met"),
          Words.capital(words.sentence(criterion)));
      if (criterion.met() != criterion.metIfCloseCallsCountAgainst()) {
        add(
            Weight.CAUTION,
            words.say("claim.close"),
            words.say(
                criterion.metIfCloseCallsCountAgainst()
                    ? "claim.close.met"
                    : "claim.close.not-met"));
      }
    }
  }

  private void bothVerdicts() {
    String rejected =
        words.say(
            "claim.rejected",
            words.count(summary.rejectedByTradeRules(), "signal"),
            summary.rejectedByFullGrade());
    if (summary.verdictByTradeRules() != summary.verdictByFullGrade()) {
      add(
          Weight.CAUTION,
          words.say("claim.disagree"),
          words.say(
              "claim.disagree.text",
              verdict(summary.verdictByTradeRules()),
              verdict(summary.verdictByFullGrade()),
              rejected));
    } else if (summary.verdictByFullGrade() != Verdict.NOT_COMPARED) {
      add(Weight.FACT, words.say("claim.agree"), rejected);
    } else if (summary.rejectedByTradeRules() + summary.rejectedByFullGrade() > 0) {
      add(Weight.FACT, words.say("claim.acceptance"), rejected);
    }
  }

  private void progress() {
    StudyProgress progress = summary.progress();
    if (progress == null || progress.signals() >= progress.usualSignals()) {
      return;
    }
    for (ProgressFact fact : progress.facts()) {
      add(Weight.FACT, words.say("claim.so-far"), Words.capital(words.sentence(fact)));
    }
  }

  private void alternatives() {
    for (StudyAlternative alternative : summary.alternatives()) {
      Double mean = alternative.meanJitterUs();
      Integer beyond = alternative.signalsAboveLimitOrBlocking();
      add(
          Weight.FACT,
          words.say("claim.otherwise", words.sentence(alternative)),
          words.count(alternative.signals(), "signal")
              + (mean == null ? "" : words.say("claim.otherwise.mean", Rounded.jitter(mean)))
              + (beyond == null ? "" : words.say("claim.otherwise.beyond", beyond))
              + ". "
              + verdict(alternative.verdict()));
    }
  }

  private void lowJitter() {
    if (summary.lowJitterSignals() > 0) {
      add(
          Weight.FACT,
          words.say("claim.low-jitter"),
          words.say("claim.low-jitter.text", words.count(summary.lowJitterSignals(), "signal")));
    }
  }

  private void cautions() {
    summary.findings().stream()
        .filter(finding -> finding.severity() != Severity.NOTE)
        .filter(finding -> !saysWhyNotCompared(finding.code()))
        .forEach(
            finding ->
                add(
                    Weight.CAUTION,
                    Words.capital(words.finding(finding.code())) + ".",
                    words.sentence(finding)));
  }

  private String whyNotCompared() {
    String why =
        String.join(
            " ",
            summary.findings().stream()
                .filter(finding -> saysWhyNotCompared(finding.code()))
                .map(finding -> words.sentence(finding))
                .toList());
    return why.isEmpty() ? words.say("claim.no-set") : why;
  }

  private boolean saysWhyNotCompared(FindingCode code) {
    return summary.limits() == null
        && switch (code) {
          case NO_LIMITS, SEVERAL_LIMITS, LIMITS_FROM_MEMORY, MISSING_DECLARATION -> true;
          default -> false;
        };
  }

  private String verdict(Verdict verdict) {
    return switch (verdict) {
      case LIMIT_EXCEEDED -> words.say("verdict.limit-exceeded");
      case NO_LIMIT_EXCEEDED -> words.say("verdict.no-limit-exceeded");
      case NOT_COMPARED -> words.say("verdict.not-compared");
    };
  }

  private void add(Weight weight, String lead, String text) {
    statements.add(new Statement(weight, lead, text));
  }
}
