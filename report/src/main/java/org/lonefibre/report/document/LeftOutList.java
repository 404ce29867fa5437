package org.lonefibre.report.document;

import java.util.ArrayList;
import java.util.List;
import org.lonefibre.analysis.study.RecordingResult;
import org.lonefibre.analysis.study.Study;
import org.lonefibre.signal.recording.Severity;

/** What is not in the statistics, and why: signals first, then sites that gave no signal. */
final class LeftOutList {

  private LeftOutList() {}

  static List<LeftOut> of(Study study, List<SignalEntry> signals, Words words) {
    List<LeftOut> list = new ArrayList<>();
    for (SignalEntry signal : signals) {
      if (!signal.inStatistics()) {
        list.add(
            new LeftOut(
                signal.label(),
                words.status(signal.measures().status()),
                signal.measures().jitterUs() == null
                    ? ""
                    : Rounded.jitterWithUnit(signal.measures().jitterUs()),
                reasons(signal.findings(), words)));
      }
    }
    for (RecordingResult recording : study.recordings()) {
      if (recording.signals().isEmpty()) {
        list.add(
            new LeftOut(
                recording.site(),
                words.say("no-signal"),
                "",
                reasons(new FindingLines(words).of("", recording.findings()), words)));
      }
    }
    return list;
  }

  /** The findings that left it out; if none says so, the others; never nothing. */
  private static List<String> reasons(List<FindingLine> findings, Words words) {
    List<FindingLine> deciding =
        findings.stream().filter(line -> line.severity() == Severity.EXCLUSION).toList();
    if (deciding.isEmpty()) {
      deciding = findings.stream().filter(line -> line.severity() == Severity.CAUTION).toList();
    }
    List<String> reasons = deciding.stream().map(LeftOutList::reason).distinct().toList();
    return reasons.isEmpty() ? List.of(words.say("no-reason")) : reasons;
  }

  private static String reason(FindingLine line) {
    String where = line.where().isEmpty() ? "" : line.where() + ": ";
    return Words.capital(where + line.title()) + ". " + line.text();
  }
}
