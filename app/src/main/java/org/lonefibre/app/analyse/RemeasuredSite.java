package org.lonefibre.app.analyse;

import java.io.IOException;
import java.util.Comparator;
import java.util.List;
import org.lonefibre.analysis.SiteAnalyser;
import org.lonefibre.analysis.SiteRequest;
import org.lonefibre.analysis.settings.AnalysisSettings;
import org.lonefibre.analysis.study.Activation;
import org.lonefibre.analysis.study.Decision;
import org.lonefibre.analysis.study.RecordingResult;
import org.lonefibre.app.declaration.DeclaredRecording;
import org.lonefibre.app.recording.RecordingDoor;
import org.lonefibre.signal.recording.Recording;

/** One site of an analysis, found again in its recording and measured as a person wants it. */
public final class RemeasuredSite {

  private RemeasuredSite() {}

  /**
   * Measures it.
   *
   * @param declared the recordings of that file as they were declared, one or more
   * @param before the site as it was measured first
   * @throws IllegalArgumentException if a decision is about nothing there
   */
  public static RecordingResult measure(
      List<DeclaredRecording> declared,
      Activation activation,
      AnalysisSettings settings,
      RecordingResult before,
      List<Decision.OfSamples> decisions)
      throws IOException {
    RecordingDoor door = RecordingDoor.plain();
    try (Recording recording = door.open(declared.get(0).path())) {
      SitePlan plan = new SitePlan(door, before.file(), before.sha256());
      List<SiteRequest> requests = new java.util.ArrayList<>();
      for (DeclaredRecording one : declared) {
        requests.addAll(plan.listSites(recording, one, activation));
      }
      SiteRequest request =
          requests.stream()
              .filter(wanted -> wanted.channel().label().equals(before.channel()))
              .min(Comparator.comparingDouble(wanted -> away(wanted, before)))
              .orElseThrow(
                  () -> new IllegalArgumentException("the recording has no such signal any more"));
      return new SiteAnalyser(settings).analyse(recording, request, decisions);
    }
  }

  /** How far two stretches are apart; the end of the recording is as good as any. */
  private static double away(SiteRequest request, RecordingResult site) {
    double end = Double.isInfinite(request.endS()) ? site.endS() : request.endS();
    return Math.abs(request.startS() - site.startS()) + Math.abs(end - site.endS());
  }
}
