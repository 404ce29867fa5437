package org.lonefibre.validation.score;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
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

/**
 * Scores how the units of one voluntary site were kept apart. Each measured pair is laid beside the
 * two fibres of one unit with which most of its sweeps agree, by time and interval.
 */
public final class UnitsScorer {

  private static final double SMALLEST_SNR = 5;
  private static final double CONDITIONED_RATIO = 0.7;
  private static final double OVERLAP_S = 0.0015;
  private static final double LEAST_AGREEMENT = 0.5;

  /** Two fibres of a unit, in the order in which a pair has them, and how far it agrees. */
  private record Match(
      PairResult pair,
      MotorUnitTruth unit,
      FibreTruth trigger,
      FibreTruth paired,
      double agreement) {}

  private UnitsScorer() {}

  /** The score of one site. */
  public static UnitsScore score(RecordingTruth truth, RecordingResult result) {
    List<MotorUnitResult> units = result.motorUnits() == null ? List.of() : result.motorUnits();
    Map<Set<String>, Match> matches = new LinkedHashMap<>();
    int measured = 0;
    for (MotorUnitResult unit : units) {
      for (PairResult pair : unit.pairs()) {
        measured += pair.status() == PairStatus.MEASURED ? 1 : 0;
        Match match = match(truth, pair);
        if (match != null) {
          // Of two pairs of the same fibres, the one that agrees less is invented.
          matches.merge(
              Set.of(match.trigger().id(), match.paired().id()),
              match,
              (a, b) -> a.agreement() >= b.agreement() ? a : b);
        }
      }
    }
    Set<String> found = new HashSet<>();
    UnitsScore score = UnitsScore.NONE;
    for (Match match : matches.values()) {
      found.add(match.trigger().id());
      found.add(match.paired().id());
      measured -= match.pair().status() == PairStatus.MEASURED ? 1 : 0;
      score = score.plus(sweeps(truth, match));
    }
    score = score.plus(new UnitsScore(0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, measured));
    double noise = result.noiseUv() == null ? 1 : result.noiseUv();
    List<FibreTruth> fibres = new ArrayList<>();
    truth.motorUnits().forEach(unit -> fibres.addAll(unit.fibres()));
    fibres.removeIf(f -> CONDITIONED_RATIO * f.amplitudeUv() <= SMALLEST_SNR * noise);
    int kept = (int) fibres.stream().filter(f -> found.contains(f.id())).count();
    return score.plus(new UnitsScore(fibres.size(), kept, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0));
  }

  private static @Nullable Match match(RecordingTruth truth, PairResult pair) {
    Match best = null;
    double most = LEAST_AGREEMENT;
    for (MotorUnitTruth unit : truth.motorUnits()) {
      for (FibreTruth a : unit.fibres()) {
        for (FibreTruth b : unit.fibres()) {
          double agreement = a == b ? 0 : SiteScorer.agreement(a, b, pair, true);
          if (agreement > most) {
            most = agreement;
            best = new Match(pair, unit, a, b, agreement);
          }
        }
      }
    }
    return best;
  }

  private static UnitsScore sweeps(RecordingTruth truth, Match match) {
    PairResult pair = match.pair();
    List<@Nullable Double> triggers = match.trigger().arrivalTimesS();
    List<@Nullable Double> pairedAt = match.paired().arrivalTimesS();
    Set<SweepEntry> right = new HashSet<>();
    int seen = 0;
    int overlapped = 0;
    int[] counts = new int[4];
    for (int d = 0; d < triggers.size(); d++) {
      Double from = triggers.get(d);
      Double to = pairedAt.get(d);
      Double at = from == null ? to : from;
      SweepEntry sweep = at == null ? null : SiteScorer.sweepAt(pair, at);
      if (sweep == null) {
        continue;
      }
      seen++;
      overlapped += isOverlapped(truth, match, from, to) ? 1 : 0;
      if (from != null && to != null && SiteScorer.isAlike(sweep, from, to)) {
        right.add(sweep);
      }
      if (from != null
          && (sweep.state() == SweepState.PRESENT || sweep.state() == SweepState.BLOCKED)) {
        boolean blocked = sweep.state() == SweepState.BLOCKED;
        counts[0]++;
        counts[1] += to != null && blocked ? 1 : 0;
        counts[2] += to == null ? 1 : 0;
        counts[3] += to == null && blocked ? 1 : 0;
      }
    }
    return new UnitsScore(
        0,
        0,
        match.unit().dischargeTimesS().size(),
        seen,
        overlapped,
        pair.presentSweeps(),
        pair.presentSweeps() - right.size(),
        counts[0],
        counts[1],
        counts[2],
        counts[3],
        0);
  }

  private static boolean isOverlapped(
      RecordingTruth truth, Match match, @Nullable Double from, @Nullable Double to) {
    return truth.motorUnits().stream()
        .filter(unit -> unit != match.unit())
        .flatMap(unit -> unit.fibres().stream())
        .anyMatch(
            fibre ->
                fibre.arrivalTimesS().stream()
                    .anyMatch(t -> t != null && (isNear(t, from) || isNear(t, to))));
  }

  private static boolean isNear(double timeS, @Nullable Double otherS) {
    return otherS != null && Math.abs(timeS - otherS) < OVERLAP_S;
  }
}
