package org.lonefibre.analysis.reference;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.grading.Grade;
import org.lonefibre.analysis.interval.SweepState;
import org.lonefibre.analysis.study.EndPlateResult;
import org.lonefibre.analysis.study.LatencyEntry;
import org.lonefibre.analysis.study.MotorUnitResult;
import org.lonefibre.analysis.study.PairResult;
import org.lonefibre.analysis.study.PairStatus;
import org.lonefibre.analysis.study.PotentialResult;
import org.lonefibre.analysis.study.RecordingResult;
import org.lonefibre.analysis.study.SignalMeasures;
import org.lonefibre.analysis.study.StimulationResult;
import org.lonefibre.analysis.study.SweepEntry;
import org.lonefibre.signal.recording.Finding;
import org.lonefibre.signal.recording.FindingCode;
import org.lonefibre.signal.recording.Severity;

/**
 * A pair or end-plate with where it comes from and what each judgement of its potentials makes of
 * it.
 *
 * @param site number of the recording in the study, from 0
 * @param siteName name of the site
 * @param unit number of the motor unit in the recording, from 0; 0 when stimulated
 * @param signal its numbers
 * @param rateHz discharge or stimulus rate; null if unknown
 * @param potentials its potentials, as far as they are known
 * @param jointBlockSweeps sweeps in which, by a finding of the unit or the site, several potentials
 *     vanish together
 */
record StudySignal(
    int site,
    String siteName,
    int unit,
    SignalMeasures signal,
    @Nullable Double rateHz,
    List<PotentialResult> potentials,
    Set<Integer> jointBlockSweeps) {

  /** Whose word decides whether a potential is one fibre. */
  enum Acceptance {
    TRADE_RULES,
    FULL_GRADE
  }

  /** What a signal is to the statistics. */
  enum Standing {
    /** It counts with its number. */
    COUNTED,
    /** It blocks too much to have a number and counts as raised. */
    RAISED_WITHOUT_NUMBER,
    /** It does not count. */
    LEFT_OUT
  }

  private static final Set<FindingCode> GRADING =
      Set.of(
          FindingCode.COMPOSITE,
          FindingCode.DOUBTFUL_POTENTIAL,
          FindingCode.SHAPE_VARIANCE,
          FindingCode.NOT_PARALLEL,
          FindingCode.NOTCH,
          FindingCode.RISE_TIME,
          FindingCode.SMALL_AMPLITUDE);

  static List<StudySignal> of(List<RecordingResult> recordings) {
    List<StudySignal> signals = new ArrayList<>();
    for (int site = 0; site < recordings.size(); site++) {
      RecordingResult recording = recordings.get(site);
      StimulationResult stimulation = recording.stimulation();
      if (stimulation != null) {
        for (EndPlateResult endPlate : stimulation.endPlates()) {
          signals.add(
              new StudySignal(
                  site,
                  recording.site(),
                  0,
                  endPlate,
                  stimulation.meanRateHz(),
                  named(stimulation.potentials(), List.of(endPlate.potential())),
                  sweepsOf(FindingCode.SUBLIMINAL_STIMULATION, recording.findings())));
        }
      }
      List<MotorUnitResult> units = recording.motorUnits();
      for (int unit = 0; units != null && unit < units.size(); unit++) {
        MotorUnitResult of = units.get(unit);
        for (PairResult pair : of.pairs()) {
          signals.add(
              new StudySignal(
                  site,
                  recording.site(),
                  unit,
                  pair,
                  of.meanDischargeRateHz(),
                  named(of.potentials(), List.of(pair.triggerPotential(), pair.pairedPotential())),
                  sweepsOf(FindingCode.AXONAL_BLOCK, of.findings())));
        }
      }
    }
    return signals;
  }

  private static List<PotentialResult> named(List<PotentialResult> all, List<String> ids) {
    Map<String, PotentialResult> byId =
        all.stream()
            .collect(Collectors.toMap(PotentialResult::id, Function.identity(), (a, b) -> a));
    return ids.stream().filter(byId::containsKey).map(byId::get).toList();
  }

  private static Set<Integer> sweepsOf(FindingCode code, List<Finding> findings) {
    return findings.stream()
        .filter(finding -> finding.code() == code)
        .flatMap(finding -> finding.evidence().sweeps().stream())
        .collect(Collectors.toUnmodifiableSet());
  }

  /** Name for texts: site and identity. */
  String name() {
    return siteName + " " + signal.id();
  }

  boolean isComposite(Acceptance acceptance) {
    return potentials.stream()
        .map(p -> acceptance == Acceptance.FULL_GRADE ? p.grade() : p.gradeByTradeRules())
        .anyMatch(grade -> grade == Grade.COMPOSITE);
  }

  boolean hasFinding(FindingCode code) {
    return signal.findings().stream().anyMatch(finding -> finding.code() == code);
  }

  boolean isBlocking() {
    return signal.blockedSweeps() > 0;
  }

  /** Whether it blocks, and never alone: the axon or the stimulus rather than the end-plate. */
  boolean isBlockingOnlyWithOthers() {
    List<Integer> blocked = blockedSweeps();
    return !blocked.isEmpty() && jointBlockSweeps.containsAll(blocked);
  }

  private List<Integer> blockedSweeps() {
    return signal instanceof PairResult pair
        ? pair.intervals().stream()
            .filter(sweep -> sweep.state() == SweepState.BLOCKED)
            .map(SweepEntry::sweep)
            .toList()
        : ((EndPlateResult) signal)
            .latencies().stream()
                .filter(sweep -> sweep.state() == SweepState.BLOCKED)
                .map(LatencyEntry::sweep)
                .toList();
  }

  Standing standing(Acceptance acceptance, StudySettings settings) {
    boolean composite = isComposite(acceptance);
    return switch (signal.status()) {
      case MEASURED ->
          composite && acceptance == Acceptance.TRADE_RULES ? Standing.LEFT_OUT : Standing.COUNTED;
      case EXCLUDED ->
          acceptance == Acceptance.TRADE_RULES && !composite && isExcludedByGradeOnly()
              ? Standing.COUNTED
              : Standing.LEFT_OUT;
      case UNMEASURABLE ->
          !composite && isBlockedTooMuch(settings)
              ? Standing.RAISED_WITHOUT_NUMBER
              : Standing.LEFT_OUT;
    };
  }

  private boolean isExcludedByGradeOnly() {
    return signal.jitterUs() != null
        && isComposite(Acceptance.FULL_GRADE)
        && signal.findings().stream()
            .filter(finding -> finding.severity() == Severity.EXCLUSION)
            .map(Finding::code)
            .allMatch(GRADING::contains);
  }

  /** Whether it would have had enough differences if nothing had blocked. */
  private boolean isBlockedTooMuch(StudySettings settings) {
    return signal.status() == PairStatus.UNMEASURABLE
        && signal.blockedSweeps() > 0
        && signal.differences() < settings.minimumDifferences()
        && signal.presentSweeps() + signal.blockedSweeps() > settings.minimumDifferences();
  }
}
