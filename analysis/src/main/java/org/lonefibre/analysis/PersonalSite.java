package org.lonefibre.analysis;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.lonefibre.analysis.settings.AnalysisSettings;
import org.lonefibre.analysis.study.Decision;
import org.lonefibre.analysis.study.RecordingResult;
import org.lonefibre.signal.recording.Evidence;
import org.lonefibre.signal.recording.Finding;
import org.lonefibre.signal.recording.FindingCode;
import org.lonefibre.signal.recording.Recording;

/** Measures a site as a person wants it, and says so in its findings. */
final class PersonalSite {

  private PersonalSite() {}

  static RecordingResult measure(
      AnalysisSettings automatic,
      Recording recording,
      SiteRequest request,
      List<Decision.OfSamples> decisions)
      throws IOException {
    AnalysisSettings settings = automatic;
    List<Decision.OfSamples> changes = new ArrayList<>();
    List<Finding> said = new ArrayList<>();
    for (Decision.OfSamples decision : decisions) {
      if (decision instanceof Decision.Filter of) {
        settings =
            settings.withConditioning(settings.conditioning().withHighPassHz(of.highPassHz()));
        changes.clear();
      } else if (decision instanceof Decision.Level of) {
        settings = settings.withDischarge(settings.discharge().withThreshold(of.thresholdRatio()));
        changes.clear();
      } else {
        changes.add(decision);
      }
      said.add(
          Finding.note(
              FindingCode.EXCLUDED_BY_PERSON,
              "A person had the site measured otherwise: "
                  + words(decision)
                  + ". Why: "
                  + decision.reason(),
              Evidence.NONE));
    }
    RecordingResult of = new SiteAnalyser(settings).analysed(recording, request, changes);
    List<Finding> findings = new ArrayList<>(of.findings());
    findings.addAll(said);
    return of.revised(findings, of.motorUnits(), of.stimulation());
  }

  private static String words(Decision.OfSamples decision) {
    if (decision instanceof Decision.Filter of) {
      return String.format(Locale.ROOT, "high-pass %.0f Hz", of.highPassHz());
    }
    if (decision instanceof Decision.Level of) {
      return String.format(Locale.ROOT, "trigger level %.1f times the noise", of.thresholdRatio());
    }
    if (decision instanceof Decision.Missed of) {
      return String.format(
          Locale.ROOT,
          of.unit().equals("stimuli")
              ? "a potential after the %s, at %.2f ms, was added"
              : "a potential of unit %s %.2f ms from the trigger was added",
          of.unit(),
          of.offsetMs());
    }
    if (decision instanceof Decision.Merge of) {
      return "units " + of.unit() + " and " + of.other() + " are one";
    }
    Decision.Split split = (Decision.Split) decision;
    return "unit "
        + split.unit()
        + " is two"
        + (split.sweeps().isEmpty()
            ? ""
            : ", the second with " + split.sweeps().size() + " discharges chosen by hand");
  }
}
