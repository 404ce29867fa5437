package org.lonefibre.report.fhir;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.study.LimitsUsed;
import org.lonefibre.analysis.study.PotentialResult;
import org.lonefibre.analysis.study.SignalMeasures;
import org.lonefibre.report.document.FindingLine;
import org.lonefibre.report.document.SignalEntry;
import org.lonefibre.report.document.SignalEntry.Kind;
import org.lonefibre.report.document.SignalEntry.Standing;
import org.lonefibre.report.document.StudyDocument;

/** A pair or an end-plate as an observation. What is not in the statistics carries no jitter. */
final class SignalObservation {

  private SignalObservation() {}

  static ObjectNode of(
      Circumstances circumstances, StudyDocument study, SignalEntry signal, String deviceUrl) {
    boolean pair = signal.kind() == Kind.PAIR;
    ObjectNode observation = Elements.resource("Observation");
    observation.set(
        "text",
        Elements.narrative(
            List.of(signal.label() + ": " + signal.standingText() + ", jitter " + jitter(signal))));
    observation.put("status", circumstances.status());
    observation.set("category", StudyObservation.category());
    observation.set(
        "code", Elements.concept(pair ? LocalCode.PAIR_JITTER : LocalCode.END_PLATE_JITTER));
    circumstances.putSubject(observation);
    circumstances.putTimes(observation);
    circumstances.putPerformer(observation);
    putValue(observation, signal, study.limits());
    putNotes(observation, signal.findings());
    observation.set("bodySite", Elements.words(study.title()));
    observation.set("device", Elements.reference(deviceUrl));
    observation.set("component", components(signal).list());
    return observation;
  }

  private static void putValue(
      ObjectNode observation, SignalEntry signal, @Nullable LimitsUsed limits) {
    Double jitterUs = signal.measures().jitterUs();
    if (!signal.inStatistics() || jitterUs == null) {
      observation.set("dataAbsentReason", absent(signal));
      return;
    }
    observation.set("valueQuantity", Elements.microseconds(signal.jitter()));
    Double limitUs = limits == null ? null : limits.individualUs();
    if (limits != null && limitUs != null) {
      observation.set(
          "referenceRange", StudyObservation.range(limits, limitUs, "limit of a single signal"));
    }
  }

  /** A composite potential has no jitter of one pair; an unmeasurable one has, but unknown. */
  private static ObjectNode absent(SignalEntry signal) {
    boolean unmeasurable =
        signal.standing() == Standing.UNMEASURABLE || signal.measures().jitterUs() == null;
    ObjectNode reason =
        Elements.concept(
            Elements.coding(
                "http://terminology.hl7.org/CodeSystem/data-absent-reason",
                unmeasurable ? "unknown" : "not-applicable"));
    return reason.put("text", unmeasurable ? "unmeasurable" : "left out of the statistics");
  }

  private static void putNotes(ObjectNode observation, List<FindingLine> findings) {
    if (findings.isEmpty()) {
      return;
    }
    ArrayNode notes = observation.putArray("note");
    for (FindingLine line : findings) {
      String where = line.where().isEmpty() ? "" : line.where() + ": ";
      notes.add(Elements.words(where + line.title() + ". " + line.text()));
    }
  }

  private static Components components(SignalEntry signal) {
    SignalMeasures measures = signal.measures();
    Components parts = new Components().words(LocalCode.STANDING, signal.standingText());
    if (signal.inStatistics()) {
      parts
          .jitter(LocalCode.CORRECTED_JITTER, measures.correctedJitterUs())
          .jitter(LocalCode.CORRECTED_JITTER_LOW, measures.correctedJitterLowUs())
          .jitter(LocalCode.CORRECTED_JITTER_HIGH, measures.correctedJitterHighUs())
          .jitter(LocalCode.MEAN_CONSECUTIVE_DIFFERENCE, measures.meanConsecutiveDifferenceUs())
          .jitter(LocalCode.MEAN_SORTED_DIFFERENCE, signal.sortedDifferenceUs())
          .jitter(LocalCode.TIMING_FLOOR, measures.timingFloorUs())
          .interval(
              signal.kind() == Kind.PAIR ? LocalCode.MEAN_INTERVAL : LocalCode.MEAN_LATENCY,
              signal.meanUs())
          .quantity(LocalCode.BLOCKING, measures.blockingPercent(), 1, "%", "%");
    }
    parts
        .count(LocalCode.SWEEPS, measures.sweeps())
        .count(LocalCode.PRESENT_SWEEPS, measures.presentSweeps())
        .count(LocalCode.BLOCKED_SWEEPS, measures.blockedSweeps())
        .count(LocalCode.DIFFERENCES, measures.differences())
        .words(LocalCode.FIRING, signal.firing());
    for (int i = 0; i < signal.potentials().size(); i++) {
      PotentialResult potential = signal.potentials().get(i);
      parts
          .quantity(LocalCode.AMPLITUDE, potential.amplitudeUv(), 0, "µV", "uV")
          .words(LocalCode.GRADE, potential.id() + ": " + signal.potentialGrades().get(i));
    }
    return parts;
  }

  private static String jitter(SignalEntry signal) {
    return signal.inStatistics() ? signal.jitter() + " µs" : "not given";
  }
}
