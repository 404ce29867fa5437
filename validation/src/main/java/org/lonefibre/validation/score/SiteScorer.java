package org.lonefibre.validation.score;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.interval.SweepState;
import org.lonefibre.analysis.study.MotorUnitResult;
import org.lonefibre.analysis.study.PairResult;
import org.lonefibre.analysis.study.PairStatus;
import org.lonefibre.analysis.study.RecordingResult;
import org.lonefibre.analysis.study.SweepEntry;
import org.lonefibre.model.simulation.RecordingTruth;
import org.lonefibre.model.simulation.RecordingTruth.FibreTruth;
import org.lonefibre.model.simulation.RecordingTruth.MotorUnitTruth;
import org.lonefibre.model.simulation.RecordingTruth.PairTruth;

/**
 * Scores one voluntary site. Pairs are matched by time and interval of their sweeps; order within a
 * pair does not matter.
 */
public final class SiteScorer {

  private static final double NEAR_S = 0.0005;
  private static final double ALIKE_US = 150;
  private static final double SMALLEST_SNR = 5;
  private static final double SHORTEST_US = 300;
  private static final double LONGEST_US = 4000;

  private SiteScorer() {}

  /** The score of one site. */
  public static Score score(RecordingTruth truth, RecordingResult result) {
    List<PairResult> pairs = new ArrayList<>();
    List<MotorUnitResult> units = result.motorUnits() == null ? List.of() : result.motorUnits();
    units.forEach(unit -> pairs.addAll(unit.pairs()));
    boolean[] explained = new boolean[pairs.size()];
    Double noise = result.noiseUv();
    Score score = new Score(1, 0, 0, 0, 0, 0, 0, 0, 0);
    for (MotorUnitTruth unit : truth.motorUnits()) {
      Map<String, FibreTruth> fibres = new HashMap<>();
      unit.fibres().forEach(fibre -> fibres.put(fibre.id(), fibre));
      explainAll(unit, pairs, explained);
      for (PairTruth pair : unit.pairs()) {
        FibreTruth trigger = fibres.get(pair.trigger());
        FibreTruth paired = fibres.get(pair.paired());
        if (trigger != null
            && paired != null
            && isEligible(pair, trigger, paired, noise == null ? 1 : noise)) {
          score = score.plus(scorePair(pair, trigger, paired, pairs));
        }
      }
    }
    int invented = 0;
    for (int p = 0; p < explained.length; p++) {
      invented += !explained[p] && pairs.get(p).status() == PairStatus.MEASURED ? 1 : 0;
    }
    return score.plus(new Score(0, 0, 0, 0, 0, 0, 0, 0, invented));
  }

  /** Marks measured pairs that any two fibres of a unit explain. */
  private static void explainAll(MotorUnitTruth unit, List<PairResult> pairs, boolean[] explained) {
    for (FibreTruth a : unit.fibres()) {
      for (FibreTruth b : unit.fibres()) {
        for (int p = 0; p < pairs.size() && a != b; p++) {
          explained[p] |= agreement(a, b, pairs.get(p), true) > 0.5;
        }
      }
    }
  }

  private static boolean isEligible(
      PairTruth pair, FibreTruth trigger, FibreTruth paired, double noiseUv) {
    double smaller = Math.min(trigger.amplitudeUv(), paired.amplitudeUv());
    double interval = meanIntervalUs(trigger, paired);
    return pair.meanConsecutiveDifferenceUs() != null
        && pair.contaminatedBy().isEmpty()
        && smaller * 0.7 > SMALLEST_SNR * noiseUv
        && Math.abs(interval) >= SHORTEST_US
        && Math.abs(interval) <= LONGEST_US
        && both(trigger, paired) > 20;
  }

  private static int both(FibreTruth a, FibreTruth b) {
    int count = 0;
    for (int d = 0; d < a.arrivalTimesS().size(); d++) {
      count += a.arrivalTimesS().get(d) != null && b.arrivalTimesS().get(d) != null ? 1 : 0;
    }
    return count;
  }

  private static double meanIntervalUs(FibreTruth a, FibreTruth b) {
    double sum = 0;
    for (int d = 0; d < a.arrivalTimesS().size(); d++) {
      Double from = a.arrivalTimesS().get(d);
      Double to = b.arrivalTimesS().get(d);
      if (from != null && to != null) {
        sum += (to - from) * 1e6;
      }
    }
    return sum / Math.max(1, both(a, b));
  }

  /** Share of the sweeps (of the truth, or of the pair) in which interval and time agree. */
  static double agreement(FibreTruth a, FibreTruth b, PairResult pair, boolean ofPair) {
    int alike = 0;
    for (int d = 0; d < a.arrivalTimesS().size(); d++) {
      Double from = a.arrivalTimesS().get(d);
      Double to = b.arrivalTimesS().get(d);
      if (from == null || to == null) {
        continue;
      }
      SweepEntry sweep = sweepAt(pair, from);
      alike += sweep != null && isAlike(sweep, from, to) ? 1 : 0;
    }
    return (double) alike / Math.max(1, ofPair ? pair.presentSweeps() : both(a, b));
  }

  /** Whether a sweep has the interval of two arrivals. */
  static boolean isAlike(SweepEntry sweep, double fromS, double toS) {
    Double interval = sweep.intervalUs();
    return interval != null && Math.abs(interval - (toS - fromS) * 1e6) < ALIKE_US;
  }

  static @Nullable SweepEntry sweepAt(PairResult pair, double timeS) {
    SweepEntry nearest = null;
    for (SweepEntry sweep : pair.intervals()) {
      double distance = Math.abs(sweep.timeS() - timeS);
      if (distance < NEAR_S && (nearest == null || distance < Math.abs(nearest.timeS() - timeS))) {
        nearest = sweep;
      }
    }
    return nearest;
  }

  private static Score scorePair(
      PairTruth truth, FibreTruth trigger, FibreTruth paired, List<PairResult> pairs) {
    PairResult best = null;
    boolean swapped = false;
    double most = 0.5;
    for (PairResult pair : pairs) {
      double straight = agreement(trigger, paired, pair, false);
      double turned = agreement(paired, trigger, pair, false);
      if (Math.max(straight, turned) > most) {
        most = Math.max(straight, turned);
        best = pair;
        swapped = turned > straight;
      }
    }
    if (best == null) {
      return new Score(0, 1, 0, 0, 0, 0, 0, 0, 0);
    }
    int[] sweeps = swapped ? new int[4] : sweeps(trigger, paired, best);
    return new Score(
        0, 1, 1, isRight(truth, best) ? 1 : 0, sweeps[0], sweeps[1], sweeps[2], sweeps[3], 0);
  }

  private static boolean isRight(PairTruth truth, PairResult pair) {
    Double corrected = pair.correctedJitterUs();
    Double floor = pair.timingFloorUs();
    Double real = truth.meanConsecutiveDifferenceUs();
    if (corrected == null || floor == null || real == null) {
      return false;
    }
    double byTiming = 3 * floor / Math.sqrt(Math.max(1, pair.differences()));
    double allowed = Math.max(Math.max(1, 0.05 * real), byTiming);
    return Math.abs(corrected - real) <= allowed;
  }

  /** Judged sweeps, false blocks, true blocks among the judged, and those found. */
  private static int[] sweeps(FibreTruth trigger, FibreTruth paired, PairResult pair) {
    int[] counts = new int[4];
    for (int d = 0; d < trigger.arrivalTimesS().size(); d++) {
      Double from = trigger.arrivalTimesS().get(d);
      SweepEntry sweep = from == null ? null : sweepAt(pair, from);
      if (sweep == null
          || (sweep.state() != SweepState.PRESENT && sweep.state() != SweepState.BLOCKED)) {
        continue;
      }
      boolean fired = paired.arrivalTimesS().get(d) != null;
      boolean blocked = sweep.state() == SweepState.BLOCKED;
      counts[0]++;
      counts[1] += fired && blocked ? 1 : 0;
      counts[2] += fired ? 0 : 1;
      counts[3] += !fired && blocked ? 1 : 0;
    }
    return counts;
  }
}
