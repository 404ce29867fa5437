package org.lonefibre.app.analyse;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.chain.KeptChain;
import org.lonefibre.analysis.reference.BesideLimit;
import org.lonefibre.analysis.study.Criterion;
import org.lonefibre.analysis.study.Examination;
import org.lonefibre.analysis.study.LimitsUsed;
import org.lonefibre.analysis.study.RecordingResult;
import org.lonefibre.analysis.study.Study;
import org.lonefibre.analysis.study.StudyAlternative;
import org.lonefibre.analysis.study.StudyProgress;
import org.lonefibre.analysis.study.StudySummary;
import org.lonefibre.analysis.study.Verdict;
import org.lonefibre.app.terminal.FaultLine;
import org.lonefibre.signal.recording.Finding;
import org.lonefibre.signal.recording.FindingCode;
import org.lonefibre.signal.recording.Severity;

/** An examination in a few lines for a terminal. Facts, never a diagnosis. */
public final class SummaryText {

  private SummaryText() {}

  /** The lines, without their ends. */
  public static List<String> lines(Examination examination) {
    List<String> lines = new ArrayList<>();
    for (Study study : examination.studies()) {
      if (!study.recordings().isEmpty()) {
        add(study, lines);
      }
    }
    KeptChain chain = examination.chain();
    if (chain != null && !lines.isEmpty()) {
      lines.add(
          String.format(
              Locale.ROOT,
              "test of the chain on %s: smallest measurable jitter %.2f us, steps that change the"
                  + " signal: %d",
              chain.testedOn(),
              chain.result().smallestJitterUs(),
              chain.result().steps().size()));
    }
    return lines;
  }

  private static void add(Study study, List<String> lines) {
    StudySummary summary = study.summary();
    lines.add(title(study));
    lines.add(
        String.format(
            Locale.ROOT,
            "  %s of %s in the statistics; left out: %d excluded (%d for low jitter), %d without a"
                + " number",
            counted(summary.signals(), "signal"),
            counted(study.recordings().size(), "recorded site"),
            summary.excludedSignals(),
            summary.lowJitterSignals(),
            summary.unmeasurableSignals()));
    if (summary.meanJitterUs() != null) {
      lines.add(
          String.format(
              Locale.ROOT,
              "  jitter: mean %s us, median %s us; with blocking: %s",
              beside(summary.limits(), "mean", summary.meanJitterUs()),
              beside(summary.limits(), "median", summary.medianJitterUs()),
              counted(summary.signalsWithBlocking(), "signal")));
    }
    addComparison(summary, lines);
    addProgress(summary, lines);
    addFindings(summary, lines);
    addUnmeasured(study, lines);
  }

  private static void addComparison(StudySummary summary, List<String> lines) {
    LimitsUsed limits = summary.limits();
    if (limits == null) {
      lines.add("  compared with no limits");
      return;
    }
    lines.add(
        String.format(
            Locale.ROOT,
            "  limits: set %s (%s %s us, single signal %s us; values: %s)",
            limits.set(),
            limits.centreStatistic(),
            number(limits.centreUs()),
            number(limits.individualUs()),
            limits.status()));
    lines.add("  by the full grade: " + words(summary.verdictByFullGrade()));
    lines.add("  by the trade's rules alone: " + words(summary.verdictByTradeRules()));
    for (Criterion criterion : summary.criteria()) {
      lines.add("    " + FaultLine.oneLine(criterion.text()));
    }
  }

  private static void addProgress(StudySummary summary, List<String> lines) {
    StudyProgress progress = summary.progress();
    if (progress != null && progress.signals() < progress.usualSignals()) {
      lines.add(
          "  so far, " + progress.signals() + " of " + progress.usualSignals() + " usual signals:");
      progress.facts().forEach(fact -> lines.add("    " + FaultLine.oneLine(fact.text())));
    }
    for (StudyAlternative other : summary.alternatives()) {
      lines.add(
          FaultLine.oneLine(
              String.format(
                  Locale.ROOT,
                  "  otherwise, %s: %s, mean %s us; %s",
                  other.text(),
                  counted(other.signals(), "signal"),
                  number(other.meanJitterUs()),
                  words(other.verdict()))));
    }
  }

  /** Why nothing could be measured at a site; said once for all sites that share the reason. */
  private static void addUnmeasured(Study study, List<String> lines) {
    Map<String, List<String>> sites = new TreeMap<>();
    for (RecordingResult recording : study.recordings()) {
      if (!recording.signals().isEmpty()) {
        continue;
      }
      for (Finding finding : recording.findings()) {
        if (finding.severity() == Severity.EXCLUSION
            || finding.code() == FindingCode.NO_DISCHARGES) {
          sites
              .computeIfAbsent(
                  finding.code().code() + ": " + finding.text(), text -> new ArrayList<>())
              .add(recording.site());
        }
      }
    }
    sites.forEach(
        (text, names) ->
            lines.add(
                FaultLine.oneLine("  unmeasurable at " + String.join(", ", names) + ": " + text)));
  }

  private static void addFindings(StudySummary summary, List<String> lines) {
    Map<String, String> texts = new TreeMap<>();
    for (Finding finding : summary.findings()) {
      if (finding.severity() != Severity.NOTE) {
        texts.merge(finding.code().code(), finding.text(), (first, more) -> first + " " + more);
      }
    }
    texts.forEach((code, text) -> lines.add("  " + code + ": " + FaultLine.oneLine(text)));
  }

  private static String title(Study study) {
    List<String> words = new ArrayList<>();
    words.add(study.muscle() == null ? "muscle not given" : study.muscle());
    if (study.side() != null) {
      words.add(study.side().name().toLowerCase(Locale.ROOT));
    }
    words.add(study.needle() == null ? "needle not given" : study.needle() + " needle");
    words.add(study.activation().name().toLowerCase(Locale.ROOT));
    return FaultLine.oneLine(String.join(", ", words));
  }

  private static String words(Verdict verdict) {
    return switch (verdict) {
      case LIMIT_EXCEEDED -> "a limit is exceeded";
      case NO_LIMIT_EXCEEDED -> "no limit is exceeded";
      case NOT_COMPARED -> "not compared";
    };
  }

  private static String counted(int count, String noun) {
    return count + " " + noun + (count == 1 ? "" : "s");
  }

  private static String beside(
      @Nullable LimitsUsed limits, String statistic, @Nullable Double value) {
    Double limit =
        limits == null || !limits.centreStatistic().equals(statistic) ? null : limits.centreUs();
    return value == null || limit == null ? number(value) : BesideLimit.text(value, limit);
  }

  private static String number(@Nullable Double value) {
    return value == null ? "none" : String.format(Locale.ROOT, "%.1f", value);
  }
}
