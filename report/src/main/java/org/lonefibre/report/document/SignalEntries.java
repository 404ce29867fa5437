package org.lonefibre.report.document;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.reference.BesideLimit;
import org.lonefibre.analysis.study.EndPlateJitter;
import org.lonefibre.analysis.study.EndPlateResult;
import org.lonefibre.analysis.study.LimitsUsed;
import org.lonefibre.analysis.study.MotorUnitResult;
import org.lonefibre.analysis.study.PairResult;
import org.lonefibre.analysis.study.PairStatus;
import org.lonefibre.analysis.study.PotentialResult;
import org.lonefibre.analysis.study.RecordingResult;
import org.lonefibre.analysis.study.SignalMeasures;
import org.lonefibre.analysis.study.StimulationResult;
import org.lonefibre.analysis.study.Study;
import org.lonefibre.report.document.SignalEntry.Kind;
import org.lonefibre.report.document.SignalEntry.Standing;

/** Lists the signals of a study in order of site, each with what belongs to it. */
final class SignalEntries {

  private final Words words;
  private final @Nullable LimitsUsed limits;
  private final List<SignalEntry> entries = new ArrayList<>();

  private SignalEntries(@Nullable LimitsUsed limits, Words words) {
    this.words = words;
    this.limits = limits;
  }

  static List<SignalEntry> of(Study study, Words words) {
    SignalEntries list = new SignalEntries(study.summary().limits(), words);
    study.recordings().forEach(list::add);
    return list.entries;
  }

  private void add(RecordingResult recording) {
    int signals = recording.signals().size();
    StimulationResult stimulation = recording.stimulation();
    if (stimulation != null) {
      for (EndPlateResult endPlate : stimulation.endPlates()) {
        entries.add(entry(stimulation, endPlate, label(recording, endPlate, signals)));
      }
    }
    List<MotorUnitResult> units = recording.motorUnits();
    if (units != null) {
      for (MotorUnitResult unit : units) {
        for (PairResult pair : unit.pairs()) {
          entries.add(entry(unit, pair, label(recording, pair, signals)));
        }
      }
    }
  }

  private SignalEntry entry(MotorUnitResult unit, PairResult pair, String label) {
    List<PotentialResult> potentials = new ArrayList<>();
    for (String id : List.of(pair.triggerPotential(), pair.pairedPotential())) {
      unit.potentials().stream().filter(p -> p.id().equals(id)).forEach(potentials::add);
    }
    return new SignalEntry(
        words,
        entries.size() + 1,
        label,
        Kind.PAIR,
        standing(pair),
        standingText(pair),
        pair,
        digits(pair),
        pair.meanIntervalUs(),
        pair.meanSortedDifferenceUs(),
        pair.triggerAbsentSweeps(),
        words.say("fires-at", unit.id(), Rounded.rate(unit.meanDischargeRateHz())),
        potentials,
        grades(potentials),
        unit.drawing(),
        pair.intervals().stream()
            .map(s -> new SweepPoint(s.sweep(), s.timeS(), s.intervalUs(), s.state()))
            .toList(),
        endPlateJitter(unit),
        new FindingLines(words).ofSignal(pair.findings(), potentials));
  }

  private SignalEntry entry(StimulationResult stimulation, EndPlateResult endPlate, String label) {
    List<PotentialResult> potentials =
        stimulation.potentials().stream().filter(p -> p.id().equals(endPlate.potential())).toList();
    return new SignalEntry(
        words,
        entries.size() + 1,
        label,
        Kind.END_PLATE,
        standing(endPlate),
        standingText(endPlate),
        endPlate,
        digits(endPlate),
        endPlate.meanLatencyUs(),
        null,
        0,
        words.say(
            "stimuli-at",
            words.count(stimulation.stimuli(), "stimulus"),
            Rounded.rate(stimulation.meanRateHz())),
        potentials,
        grades(potentials),
        stimulation.drawing(),
        endPlate.latencies().stream()
            .map(s -> new SweepPoint(s.sweep(), s.timeS(), s.latencyUs(), s.state()))
            .toList(),
        "",
        new FindingLines(words).ofSignal(endPlate.findings(), potentials));
  }

  private static String label(RecordingResult recording, SignalMeasures signal, int signals) {
    return signals > 1 ? recording.site() + ", " + signal.id() : recording.site();
  }

  private List<String> grades(List<PotentialResult> potentials) {
    return potentials.stream()
        .map(
            p ->
                words.grade(p.grade())
                    + (p.singleFibreProbability() == null
                        ? ""
                        : ", " + Rounded.probability(p.singleFibreProbability())))
        .toList();
  }

  private String endPlateJitter(MotorUnitResult unit) {
    return unit.endPlateJitters().stream()
        .filter(e -> e.jitterUs() != null)
        .map(this::inWords)
        .collect(Collectors.joining("; "));
  }

  private String inWords(EndPlateJitter endPlate) {
    return endPlate.potential()
        + " "
        + Rounded.jitterWithUnit(endPlate.jitterUs())
        + " ("
        + words.say(
            "from-to",
            Rounded.jitter(endPlate.jitterLowUs()),
            Rounded.jitter(endPlate.jitterHighUs()))
        + ")";
  }

  private static Standing standing(SignalMeasures signal) {
    return switch (signal.status()) {
      case MEASURED -> signal.blockedSweeps() > 0 ? Standing.BLOCKING : Standing.MEASURED;
      case EXCLUDED -> Standing.EXCLUDED;
      case UNMEASURABLE -> Standing.UNMEASURABLE;
    };
  }

  private String digits(SignalMeasures signal) {
    Double jitter = signal.jitterUs();
    Double limit = limits == null ? null : limits.individualUs();
    return jitter == null || limit == null
        ? Rounded.jitter(jitter)
        : BesideLimit.text(jitter, limit);
  }

  private String standingText(SignalMeasures signal) {
    if (signal.status() != PairStatus.MEASURED) {
      return words.status(signal.status());
    }
    String blocking =
        signal.blockedSweeps() > 0
            ? words.say("blocks", Rounded.percent(signal.blockingPercent()))
            : "";
    Double jitter = signal.jitterUs();
    Double limit = limits == null ? null : limits.individualUs();
    String above =
        jitter != null && limit != null && jitter > limit
            ? words.say("above-limit", Rounded.shortest(limit, 1))
            : "";
    String joined = above + (above.isEmpty() || blocking.isEmpty() ? "" : ", ") + blocking;
    return joined.isEmpty() ? words.status(signal.status()) : joined;
  }
}
