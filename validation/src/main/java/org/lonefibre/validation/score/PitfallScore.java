package org.lonefibre.validation.score;

import java.util.ArrayList;
import java.util.List;
import org.lonefibre.analysis.study.EndPlateResult;
import org.lonefibre.analysis.study.MotorUnitResult;
import org.lonefibre.analysis.study.PairResult;
import org.lonefibre.analysis.study.PotentialResult;
import org.lonefibre.analysis.study.RecordingResult;
import org.lonefibre.analysis.study.StimulationResult;
import org.lonefibre.signal.recording.Finding;
import org.lonefibre.signal.recording.FindingCode;

/**
 * How often a finding is raised.
 *
 * @param code the finding
 * @param sites sites that hold what it is about
 * @param hits of those, sites in which it is raised
 * @param controls the same sites without it
 * @param falseAlarms of those, sites in which it is raised all the same
 * @param usualSites sites of healthy studies, with colliding units
 * @param usualAlarms of those, sites in which it is raised
 */
public record PitfallScore(
    FindingCode code,
    int sites,
    int hits,
    int controls,
    int falseAlarms,
    int usualSites,
    int usualAlarms) {

  /** Whether a finding is raised anywhere in a recording: of itself, its units or its signals. */
  public static boolean isRaised(FindingCode code, RecordingResult result) {
    return listFindings(result).stream().anyMatch(finding -> finding.code() == code);
  }

  private static List<Finding> listFindings(RecordingResult result) {
    List<Finding> all = new ArrayList<>(result.findings());
    List<MotorUnitResult> units = result.motorUnits();
    for (MotorUnitResult unit : units == null ? List.<MotorUnitResult>of() : units) {
      all.addAll(unit.findings());
      unit.potentials().stream().map(PotentialResult::findings).forEach(all::addAll);
      unit.pairs().stream().map(PairResult::findings).forEach(all::addAll);
    }
    StimulationResult stimulation = result.stimulation();
    if (stimulation != null) {
      stimulation.potentials().stream().map(PotentialResult::findings).forEach(all::addAll);
      stimulation.endPlates().stream().map(EndPlateResult::findings).forEach(all::addAll);
    }
    return all;
  }
}
