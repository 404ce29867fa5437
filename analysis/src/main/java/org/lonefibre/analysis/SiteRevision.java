package org.lonefibre.analysis;

import java.util.ArrayList;
import java.util.List;
import org.lonefibre.analysis.jitter.JitterSettings;
import org.lonefibre.analysis.study.Decision;
import org.lonefibre.analysis.study.MotorUnitResult;
import org.lonefibre.analysis.study.RecordingResult;
import org.lonefibre.analysis.study.StimulationResult;
import org.lonefibre.signal.recording.Evidence;
import org.lonefibre.signal.recording.Finding;
import org.lonefibre.signal.recording.FindingCode;

/**
 * Computes one site again after decisions of a person, from the discharges and arrivals the
 * automatic result keeps: jitter, blocking, end-plates and their findings. Nothing is detected
 * anew.
 *
 * <ol>
 *   <li>The decisions are taken over in their order ({@code RevisedSignals}).
 *   <li>Each signal is measured again as by {@link SiteAnalyser}.
 *   <li>What belongs to a unit or to the stimuli together is judged again.
 * </ol>
 *
 * <ul>
 *   <li>Without decisions the automatic result comes back, to rounding.
 *   <li>A decision about what the site does not have: IllegalArgumentException.
 *   <li>With another trigger potential, sweeps in which the former one was absent are obscured for
 *       all but the pair of both: the kept result does not say where the others were.
 *   <li>Thread rule: immutable, safe to share.
 * </ul>
 */
public final class SiteRevision {

  private final JitterSettings settings;

  /** A revision that measures with these settings. */
  public SiteRevision(JitterSettings settings) {
    this.settings = settings;
  }

  /** The site after the decisions. */
  public RecordingResult revise(RecordingResult automatic, List<Decision> decisions) {
    List<double[]> gapsS = gapsS(automatic);
    List<Decision> open = new ArrayList<>(decisions);
    StimulationResult stimulation = automatic.stimulation();
    List<MotorUnitResult> units = automatic.motorUnits();
    List<Finding> findings = new ArrayList<>(automatic.findings());
    StimulationResult revisedStimulation = null;
    if (stimulation != null) {
      RevisedStimulation revised = new RevisedStimulation(settings, gapsS, stimulation);
      decisions.forEach(decision -> takeOver(revised.signals(), decision, open));
      revisedStimulation = revised.result(findings);
    }
    List<MotorUnitResult> revisedUnits = units == null ? null : new ArrayList<>();
    if (units != null && revisedUnits != null) {
      for (MotorUnitResult unit : units) {
        RevisedUnit revised = new RevisedUnit(settings, gapsS, unit);
        decisions.forEach(decision -> takeOver(revised.signals(), decision, open));
        revisedUnits.add(revised.result());
      }
    }
    if (!open.isEmpty()) {
      throw new IllegalArgumentException(
          "site " + automatic.site() + " has nothing that fits the decision " + open.get(0));
    }
    return automatic.revised(findings, revisedUnits, revisedStimulation);
  }

  private static void takeOver(RevisedSignals signals, Decision decision, List<Decision> open) {
    if (signals.takeOver(decision)) {
      // By identity: the same decision may stand twice.
      for (int i = 0; i < open.size(); i++) {
        if (open.get(i) == decision) {
          open.remove(i);
          break;
        }
      }
    }
  }

  private static List<double[]> gapsS(RecordingResult recording) {
    List<double[]> gaps = new ArrayList<>();
    for (Finding finding : recording.findings()) {
      if (finding.code() == FindingCode.GAP) {
        for (Evidence.Stretch gap : finding.evidence().stretches()) {
          gaps.add(new double[] {gap.startS(), gap.endS()});
        }
      }
    }
    return gaps;
  }
}
