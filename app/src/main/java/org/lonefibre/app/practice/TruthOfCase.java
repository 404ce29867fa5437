package org.lonefibre.app.practice;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.grading.Grade;
import org.lonefibre.analysis.study.Examination;
import org.lonefibre.analysis.study.MotorUnitResult;
import org.lonefibre.analysis.study.PairResult;
import org.lonefibre.analysis.study.PotentialResult;
import org.lonefibre.analysis.study.RecordingResult;
import org.lonefibre.analysis.study.SweepEntry;
import org.lonefibre.model.simulation.RecordingTruth;
import org.lonefibre.model.simulation.RecordingTruth.FibreTruth;
import org.lonefibre.workbench.declaration.PracticeCase;

/**
 * Finds what was measured in what truly happened.
 *
 * <ol>
 *   <li>The pair is the one whose mean interval is that of the trigger and the first fibre.
 *   <li>A sweep is a discharge if the trigger arrived within 2 ms of it.
 *   <li>It is blocked if no fibre of the potential arrived.
 * </ol>
 */
final class TruthOfCase {

  private static final double SAME_US = 250;
  private static final double SAME_S = 0.002;

  private final PracticeKind kind;
  private final RecordingTruth.MotorUnitTruth unit;
  private final FibreTruth trigger;
  private final List<FibreTruth> fibres;

  TruthOfCase(PracticeKind kind, RecordingTruth truth) {
    this.kind = kind;
    this.unit = truth.motorUnits().get(0);
    this.trigger = unit.fibres().get(0);
    this.fibres =
        unit.fibres().subList(1, unit.fibres().size()).stream()
            .sorted(Comparator.comparingDouble(FibreTruth::amplitudeUv).reversed())
            .toList();
  }

  /** The case, if the chain found the potential and kept what is drawn. */
  Optional<PracticeCase> in(Examination examination) {
    if (examination.studies().get(0).recordings().isEmpty()) {
      return Optional.empty();
    }
    RecordingResult site = examination.studies().get(0).recordings().get(0);
    double wantedUs = 1000 * offsetMs(fibres.get(0));
    PracticeCase best = null;
    double least = SAME_US;
    for (MotorUnitResult one :
        site.motorUnits() == null ? List.<MotorUnitResult>of() : site.motorUnits()) {
      for (PairResult pair : one.pairs()) {
        Double interval = pair.meanIntervalUs();
        PotentialResult potential =
            one.potentials().stream()
                .filter(p -> p.id().equals(pair.pairedPotential()))
                .findFirst()
                .orElse(null);
        if (interval != null
            && potential != null
            && potential.drawing() != null
            && one.drawing() != null
            && Math.abs(interval - wantedUs) < least) {
          least = Math.abs(interval - wantedUs);
          best = new PracticeCase(examination, one, pair, potential, truth(one, pair));
        }
      }
    }
    return Optional.ofNullable(best);
  }

  private PracticeCase.Truth truth(MotorUnitResult one, PairResult pair) {
    Set<Integer> drawn = new HashSet<>();
    if (one.drawing() != null) {
      drawn.addAll(one.drawing().sweeps());
    }
    List<Integer> blocked = new ArrayList<>();
    for (SweepEntry sweep : pair.intervals()) {
      int discharge = discharge(sweep.timeS());
      if (drawn.contains(sweep.sweep())
          && discharge >= 0
          && fibres.stream().allMatch(f -> f.arrivalTimesS().get(discharge) == null)) {
        blocked.add(sweep.sweep());
      }
    }
    return new PracticeCase.Truth(
        kind.words(),
        fibres.size() > 1 ? Grade.COMPOSITE : Grade.SINGLE_FIBRE,
        fibres.stream().map(this::fibre).toList(),
        jitterUs(fibres.get(0)),
        blocked);
  }

  /** The discharge in which the trigger arrived about then; -1 if there is none. */
  private int discharge(double timeS) {
    int found = -1;
    double least = SAME_S;
    for (int d = 0; d < trigger.arrivalTimesS().size(); d++) {
      Double arrival = trigger.arrivalTimesS().get(d);
      if (arrival != null && Math.abs(arrival - timeS) < least) {
        least = Math.abs(arrival - timeS);
        found = d;
      }
    }
    return found;
  }

  private PracticeCase.Fibre fibre(FibreTruth of) {
    long blocked = of.arrivalTimesS().stream().filter(time -> time == null).count();
    return new PracticeCase.Fibre(
        offsetMs(of),
        of.amplitudeUv(),
        of.endPlateJitterUs(),
        100.0 * blocked / of.arrivalTimesS().size());
  }

  private double offsetMs(FibreTruth of) {
    double sum = 0;
    int count = 0;
    for (int d = 0; d < of.arrivalTimesS().size(); d++) {
      Double first = trigger.arrivalTimesS().get(d);
      Double second = of.arrivalTimesS().get(d);
      if (first != null && second != null) {
        sum += 1000 * (second - first);
        count++;
      }
    }
    return count == 0 ? 0 : sum / count;
  }

  private @Nullable Double jitterUs(FibreTruth of) {
    return unit.pairs().stream()
        .filter(pair -> pair.paired().equals(of.id()))
        .map(RecordingTruth.PairTruth::meanConsecutiveDifferenceUs)
        .findFirst()
        .orElse(null);
  }
}
