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

  private final Study study;
  private final StudySummary summary;
  private final List<Statement> statements = new ArrayList<>();

  private Claims(Study study) {
    this.study = study;
    this.summary = study.summary();
  }

  static List<Statement> of(Study study) {
    Claims claims = new Claims(study);
    claims.comparison();
    claims.bothVerdicts();
    claims.progress();
    claims.alternatives();
    claims.lowJitter();
    claims.cautions();
    return claims.statements;
  }

  static List<Headline> headlines(Study study) {
    StudySummary summary = study.summary();
    LimitsUsed limits = summary.limits();
    String centre = limits == null ? "none" : limits.centreStatistic();
    List<Headline> headlines = new ArrayList<>();
    headlines.add(centreHeadline("Mean jitter", "mean", summary.meanJitterUs(), centre, limits));
    headlines.add(
        centreHeadline("Median jitter", "median", summary.medianJitterUs(), centre, limits));
    Integer above = summary.signalsAboveLimit();
    Double individual = limits == null ? null : limits.individualUs();
    headlines.add(
        new Headline(
            "Above the limit",
            above == null ? Rounded.NONE : above.toString(),
            above == null ? "" : "of " + summary.signals(),
            individual == null ? "no limit" : "limit " + Rounded.shortest(individual, 1) + " µs"));
    headlines.add(
        new Headline(
            "With blocking",
            Integer.toString(summary.signalsWithBlocking()),
            "of " + summary.signals(),
            summary.signalsAboveLimitOrBlocking() == null
                ? ""
                : "above or blocking: " + summary.signalsAboveLimitOrBlocking()));
    headlines.add(
        new Headline(
            "Left out",
            Integer.toString(summary.excludedSignals() + summary.unmeasurableSignals()),
            "",
            summary.unmeasurableSignals() + " unmeasurable"));
    return headlines;
  }

  private static Headline centreHeadline(
      String name,
      String statistic,
      @Nullable Double value,
      String centre,
      @Nullable LimitsUsed limits) {
    Double limit = limits == null || !centre.equals(statistic) ? null : limits.centreUs();
    return new Headline(
        name,
        value == null
            ? Rounded.NONE
            : limit == null ? Rounded.jitter(value) : BesideLimit.text(value, limit),
        value == null ? "" : "µs",
        limit == null
            ? (limits == null ? "no limit" : "no limit of its own")
            : "limit " + Rounded.shortest(limit, 1) + " µs");
  }

  private void comparison() {
    if (summary.signals() == 0) {
      add(
          Weight.CAUTION,
          "Nothing was measured.",
          "No signal of "
              + Words.count(study.recordings().size(), "site")
              + " could enter the statistics; the reasons stand below.");
    }
    LimitsUsed limits = summary.limits();
    if (summary.verdictByFullGrade() == Verdict.NOT_COMPARED || limits == null) {
      add(Weight.CAUTION, "Nothing was compared with limits.", whyNotCompared());
      return;
    }
    add(
        Weight.FACT,
        verdict(summary.verdictByFullGrade()),
        "Set "
            + limits.set()
            + ". "
            + Words.count(summary.signals(), "signal")
            + " from "
            + Words.count(summary.sites(), "site")
            + " in the statistics.");
    for (Criterion criterion : summary.criteria()) {
      add(
          Weight.FACT,
          criterion.met() ? "Met:" : "Not met:",
          Words.capital(Words.typeset(criterion.text())));
      if (criterion.met() != criterion.metIfCloseCallsCountAgainst()) {
        add(
            Weight.CAUTION,
            "Too close to call.",
            "If the values within 2 µs of a limit counted the other way, this criterion would be "
                + (criterion.metIfCloseCallsCountAgainst() ? "met." : "not met."));
      }
    }
  }

  private void bothVerdicts() {
    String rejected =
        "The trade's rules of acceptance alone leave out "
            + Words.count(summary.rejectedByTradeRules(), "signal")
            + ", the full grade "
            + summary.rejectedByFullGrade()
            + ".";
    if (summary.verdictByTradeRules() != summary.verdictByFullGrade()) {
      add(
          Weight.CAUTION,
          "The two ways of accepting potentials disagree.",
          "By the trade's rules alone: "
              + verdict(summary.verdictByTradeRules())
              + " By the full grade: "
              + verdict(summary.verdictByFullGrade())
              + " "
              + rejected);
    } else if (summary.verdictByFullGrade() != Verdict.NOT_COMPARED) {
      add(Weight.FACT, "Both ways of accepting potentials agree.", rejected);
    } else if (summary.rejectedByTradeRules() + summary.rejectedByFullGrade() > 0) {
      add(Weight.FACT, "Acceptance.", rejected);
    }
  }

  private void progress() {
    StudyProgress progress = summary.progress();
    if (progress == null || progress.signals() >= progress.usualSignals()) {
      return;
    }
    for (ProgressFact fact : progress.facts()) {
      add(Weight.FACT, "So far:", Words.capital(Words.typeset(fact.text())));
    }
  }

  private void alternatives() {
    for (StudyAlternative alternative : summary.alternatives()) {
      Integer beyond = alternative.signalsAboveLimitOrBlocking();
      add(
          Weight.FACT,
          "Counted otherwise, " + Words.typeset(alternative.text()) + ":",
          Words.count(alternative.signals(), "signal")
              + (alternative.meanJitterUs() == null
                  ? ""
                  : ", mean " + Rounded.jitter(alternative.meanJitterUs()) + " µs")
              + (beyond == null ? "" : ", " + beyond + " above the limit or blocking")
              + ". "
              + verdict(alternative.verdict()));
    }
  }

  private void lowJitter() {
    if (summary.lowJitterSignals() > 0) {
      add(
          Weight.FACT,
          "Low jitter, listed apart.",
          Words.count(summary.lowJitterSignals(), "signal")
              + " under 5 µs: a split fibre or direct stimulation; not in the statistics.");
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
                    Words.capital(Words.finding(finding.code())) + ".",
                    Words.typeset(finding.text())));
  }

  private String whyNotCompared() {
    String why =
        String.join(
            " ",
            summary.findings().stream()
                .filter(finding -> saysWhyNotCompared(finding.code()))
                .map(finding -> Words.typeset(finding.text()))
                .toList());
    return why.isEmpty() ? "No limit set fits." : why;
  }

  private boolean saysWhyNotCompared(FindingCode code) {
    return summary.limits() == null
        && switch (code) {
          case NO_LIMITS, SEVERAL_LIMITS, LIMITS_FROM_MEMORY, MISSING_DECLARATION -> true;
          default -> false;
        };
  }

  private static String verdict(Verdict verdict) {
    return switch (verdict) {
      case LIMIT_EXCEEDED -> "At least one limit of the set is exceeded.";
      case NO_LIMIT_EXCEEDED -> "No limit of the set is exceeded.";
      case NOT_COMPARED -> "Nothing was compared.";
    };
  }

  private void add(Weight weight, String lead, String text) {
    statements.add(new Statement(weight, lead, text));
  }
}
