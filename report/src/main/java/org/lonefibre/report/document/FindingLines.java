package org.lonefibre.report.document;

import java.util.ArrayList;
import java.util.List;
import org.lonefibre.analysis.study.MotorUnitResult;
import org.lonefibre.analysis.study.PotentialResult;
import org.lonefibre.analysis.study.RecordingResult;
import org.lonefibre.analysis.study.StimulationResult;
import org.lonefibre.analysis.study.Study;
import org.lonefibre.signal.recording.Finding;

/** Puts findings into words, each where it belongs, none twice. */
final class FindingLines {

  private final Words words;

  FindingLines(Words words) {
    this.words = words;
  }

  /** Findings of the study, its recordings and its motor units, in this order. */
  List<FindingLine> ofStudy(Study study) {
    List<FindingLine> lines = new ArrayList<>(of("", study.summary().findings()));
    for (RecordingResult recording : study.recordings()) {
      lines.addAll(of(recording.site(), recording.findings()));
      List<MotorUnitResult> units = recording.motorUnits();
      if (units != null) {
        for (MotorUnitResult unit : units) {
          lines.addAll(of(words.say("unit-of-site", recording.site(), unit.id()), unit.findings()));
          if (unit.pairs().isEmpty()) {
            lines.addAll(ofPotentials(recording.site() + ", ", unit.potentials()));
          }
        }
      }
      StimulationResult stimulation = recording.stimulation();
      if (stimulation != null && stimulation.endPlates().isEmpty()) {
        lines.addAll(ofPotentials(recording.site() + ", ", stimulation.potentials()));
      }
    }
    return lines;
  }

  List<FindingLine> ofPotentials(String before, List<PotentialResult> potentials) {
    List<FindingLine> lines = new ArrayList<>();
    for (PotentialResult potential : potentials) {
      lines.addAll(of(before + words.say("potential", potential.id()), potential.findings()));
    }
    return lines;
  }

  /** Findings of a signal and of its potentials; what a potential says is not said twice. */
  List<FindingLine> ofSignal(List<Finding> findings, List<PotentialResult> potentials) {
    List<FindingLine> specific = ofPotentials("", potentials);
    List<FindingLine> lines = new ArrayList<>();
    for (FindingLine line : of("", findings)) {
      boolean repeated =
          specific.stream()
              .anyMatch(s -> s.title().equals(line.title()) && s.text().equals(line.text()));
      if (!repeated) {
        lines.add(line);
      }
    }
    lines.addAll(specific);
    return lines;
  }

  List<FindingLine> of(String where, List<Finding> findings) {
    return findings.stream()
        .map(
            finding ->
                new FindingLine(
                    where,
                    finding.severity(),
                    words.finding(finding.code()),
                    words.sentence(finding)))
        .toList();
  }
}
