package org.lonefibre.report.fhir;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.reference.BesideLimit;
import org.lonefibre.analysis.study.LimitsUsed;
import org.lonefibre.analysis.study.Study;
import org.lonefibre.analysis.study.StudySummary;
import org.lonefibre.analysis.study.Visit;
import org.lonefibre.report.document.Rounded;
import org.lonefibre.report.document.Statement;
import org.lonefibre.report.document.StudyDocument;

/** A study as an observation: its mean jitter, what it rests on, what can be claimed. */
final class StudyObservation {

  private StudyObservation() {}

  static ObjectNode of(
      Circumstances circumstances,
      StudyDocument document,
      Study study,
      String deviceUrl,
      List<String> signalUrls) {
    StudySummary summary = study.summary();
    ObjectNode observation = Elements.resource("Observation");
    observation.set("text", Elements.narrative(claims(document)));
    observation.put("status", circumstances.status());
    observation.set("category", category());
    observation.set("code", Elements.concept(LocalCode.MEAN_JITTER));
    circumstances.putSubject(observation);
    circumstances.putTimes(observation);
    circumstances.putPerformer(observation);
    LimitsUsed limits = summary.limits();
    Double meanUs = summary.meanJitterUs();
    Double limitUs = centreLimit(limits, "mean");
    if (meanUs == null) {
      observation.set(
          "dataAbsentReason",
          Elements.concept(
                  Elements.coding(
                      "http://terminology.hl7.org/CodeSystem/data-absent-reason", "unknown"))
              .put("text", "no signal is in the statistics"));
    } else {
      observation.set("valueQuantity", Elements.microseconds(digits(meanUs, limitUs)));
    }
    ArrayNode notes = observation.putArray("note");
    claims(document).forEach(claim -> notes.add(Elements.words(claim)));
    observation.set("bodySite", Elements.words(document.title()));
    observation.set("device", Elements.reference(deviceUrl));
    if (limits != null && limitUs != null) {
      observation.set("referenceRange", range(limits, limitUs, "limit of the mean"));
    }
    if (!signalUrls.isEmpty()) {
      ArrayNode members = observation.putArray("hasMember");
      signalUrls.forEach(url -> members.add(Elements.reference(url)));
    }
    observation.set("component", components(circumstances, summary).list());
    return observation;
  }

  static ArrayNode category() {
    return Elements.listOf(
        Elements.concept(
            Elements.coding(
                "http://terminology.hl7.org/CodeSystem/observation-category", "procedure")));
  }

  static ArrayNode range(LimitsUsed limits, double limitUs, String what) {
    ObjectNode range = Elements.object();
    range.set("high", Elements.microseconds(Rounded.shortest(limitUs, 1)));
    return Elements.listOf(
        range.put(
            "text",
            Elements.text(
                what
                    + ", set "
                    + limits.set()
                    + "; source: "
                    + limits.source()
                    + "; status: "
                    + limits.status())));
  }

  private static Components components(Circumstances circumstances, StudySummary summary) {
    Visit visit = circumstances.examination().visit();
    LimitsUsed limits = summary.limits();
    return new Components()
        .jitter(LocalCode.MEDIAN_JITTER, summary.medianJitterUs())
        .interval(LocalCode.MEAN_INTERVAL, summary.meanIntervalUs())
        .quantity(LocalCode.MEAN_RATE, summary.meanDischargeRateHz(), 1, "Hz", "Hz")
        .count(LocalCode.SIGNALS, summary.signals())
        .count(LocalCode.SIGNALS_ABOVE_LIMIT, summary.signalsAboveLimit())
        .count(LocalCode.SIGNALS_WITH_BLOCKING, summary.signalsWithBlocking())
        .count(LocalCode.SIGNALS_LEFT_OUT, summary.excludedSignals())
        .count(LocalCode.SIGNALS_UNMEASURABLE, summary.unmeasurableSignals())
        .words(LocalCode.LIMIT_SET, limits == null ? "none: nothing was compared" : limits.set())
        .quantity(LocalCode.SKIN_TEMPERATURE, visit.temperatureDegC(), 1, "°C", "Cel")
        .quantity(LocalCode.AGE, circumstances.examination().subject().ageYears(), 0, "years", "a")
        .words(LocalCode.MEDICATION, visit.medication());
  }

  private static List<String> claims(StudyDocument document) {
    List<String> claims = new ArrayList<>(List.of(document.title()));
    for (Statement claim : document.claims()) {
      String weight = claim.weight() == Statement.Weight.CAUTION ? "Caution. " : "";
      claims.add(weight + claim.lead() + " " + claim.text());
    }
    return claims;
  }

  private static @Nullable Double centreLimit(@Nullable LimitsUsed limits, String statistic) {
    return limits == null || !statistic.equals(limits.centreStatistic()) ? null : limits.centreUs();
  }

  private static String digits(double valueUs, @Nullable Double limitUs) {
    return limitUs == null ? Rounded.jitter(valueUs) : BesideLimit.text(valueUs, limitUs);
  }
}
