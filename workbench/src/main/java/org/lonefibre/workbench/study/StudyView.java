package org.lonefibre.workbench.study;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.study.Examination;
import org.lonefibre.analysis.study.PairResult;
import org.lonefibre.analysis.study.RecordingResult;
import org.lonefibre.analysis.study.SignalMeasures;
import org.lonefibre.analysis.study.Study;
import org.lonefibre.store.studies.SignedVersion;
import org.lonefibre.workbench.server.Json;

/** A study as a page shows it: everything but the sweeps. */
final class StudyView {

  private StudyView() {}

  static ObjectNode of(OpenStudy study, Map<String, String> notes, List<SignedVersion> versions) {
    ObjectNode view = Json.object();
    view.set("study", Json.tree(study.kept()));
    view.set("declaration", Json.tree(study.declaration()));
    view.set("notes", Json.tree(notes));
    ArrayNode steps = view.putArray("steps");
    study.steps().forEach(step -> steps.add(Json.tree(step)));
    ArrayNode signed = view.putArray("versions");
    for (SignedVersion version : versions) {
      signed
          .addObject()
          .put("version", version.version())
          .put("signer", version.signer())
          .put("meaning", version.meaning())
          .put("signedAt", version.signedAt())
          .put("sha256", version.sha256());
    }
    view.set("reading", study.reading() == null ? null : Json.tree(study.reading()));
    ArrayNode parts = view.putArray("parts");
    Examination current = study.current();
    Examination automatic = study.automatic();
    if (current != null && automatic != null) {
      view.set("settings", Json.tree(current.settings()));
      view.put("analysedAt", current.createdAt());
      view.set("refused", Json.tree(current.refused()));
      for (int p = 0; p < current.studies().size(); p++) {
        parts.add(
            study.isBlind()
                ? blind(study, p, current.studies().get(p))
                : part(current.studies().get(p), automatic.studies().get(p)));
      }
    }
    return view;
  }

  /** The sites alone, with how many potentials the reader has judged. */
  private static ObjectNode blind(OpenStudy study, int number, Study now) {
    ObjectNode part = Json.object();
    part.putObject("summary");
    part.putObject("automaticSummary");
    ArrayNode sites = part.putArray("sites");
    for (int s = 0; s < now.recordings().size(); s++) {
      RecordingResult recording = now.recordings().get(s);
      ObjectNode site = sites.addObject();
      site.put("site", recording.site()).put("file", recording.file());
      site.putArray("signals");
      site.putArray("findings");
      int potentials = 0;
      if (recording.motorUnits() != null) {
        potentials = recording.motorUnits().stream().mapToInt(u -> u.potentials().size()).sum();
      }
      if (recording.stimulation() != null) {
        potentials += recording.stimulation().potentials().size();
      }
      site.put("potentials", potentials);
      site.put(
          "judged",
          SiteSteps.of(study.steps(), Desk.siteKey(number, s)).ofKept().stream()
              .filter(org.lonefibre.analysis.study.Decision.Grading.class::isInstance)
              .map(d -> ((org.lonefibre.analysis.study.Decision.Grading) d).potential())
              .distinct()
              .count());
    }
    return part;
  }

  private static ObjectNode part(Study now, Study automatic) {
    ObjectNode part = Json.object();
    part.set("summary", Json.tree(now.summary()));
    part.set("automaticSummary", Json.tree(automatic.summary()));
    ArrayNode sites = part.putArray("sites");
    for (int s = 0; s < now.recordings().size(); s++) {
      sites.add(site(now.recordings().get(s), automatic.recordings().get(s)));
    }
    return part;
  }

  private static ObjectNode site(RecordingResult now, RecordingResult automatic) {
    ObjectNode site = Json.object();
    site.put("site", now.site());
    site.put("file", now.file());
    site.put("channel", now.channel());
    site.put("durationS", now.durationS());
    site.set("findings", Json.tree(now.findings()));
    Map<String, ? extends SignalMeasures> before =
        automatic.signals().stream()
            .collect(Collectors.toMap(SignalMeasures::id, Function.identity(), (a, b) -> a));
    ArrayNode signals = site.putArray("signals");
    for (SignalMeasures signal : now.signals()) {
      signals.add(signal(signal, before.get(signal.id())));
    }
    return site;
  }

  static ObjectNode signal(SignalMeasures signal, @Nullable SignalMeasures automatic) {
    ObjectNode view = Json.object();
    view.put("id", signal.id());
    view.put("sweeps", signal.sweeps());
    view.put("presentSweeps", signal.presentSweeps());
    view.put("blockedSweeps", signal.blockedSweeps());
    view.put("excludedSweeps", signal.excludedSweeps());
    view.put("differences", signal.differences());
    view.put("blockingPercent", signal.blockingPercent());
    view.put("jitterUs", signal.jitterUs());
    view.put("timingFloorUs", signal.timingFloorUs());
    view.put("correctedJitterUs", signal.correctedJitterUs());
    view.put("correctedJitterLowUs", signal.correctedJitterLowUs());
    view.put("correctedJitterHighUs", signal.correctedJitterHighUs());
    view.put(
        "meanIntervalUs",
        signal instanceof PairResult pair
            ? pair.meanIntervalUs()
            : ((org.lonefibre.analysis.study.EndPlateResult) signal).meanLatencyUs());
    view.set("status", Json.tree(signal.status()));
    view.set("findings", Json.tree(signal.findings()));
    view.put("automaticJitterUs", automatic == null ? null : automatic.jitterUs());
    view.put(
        "changed",
        automatic == null
            || !Objects.equals(automatic.jitterUs(), signal.jitterUs())
            || automatic.status() != signal.status()
            || automatic.blockedSweeps() != signal.blockedSweeps());
    return view;
  }
}
