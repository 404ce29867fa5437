package org.lonefibre.analysis.reference;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.grading.Grade;
import org.lonefibre.analysis.interval.SweepState;
import org.lonefibre.analysis.jitter.JitterStatistic;
import org.lonefibre.analysis.study.EndPlateResult;
import org.lonefibre.analysis.study.MotorUnitResult;
import org.lonefibre.analysis.study.PairResult;
import org.lonefibre.analysis.study.PairStatus;
import org.lonefibre.analysis.study.PotentialResult;
import org.lonefibre.analysis.study.RecordingResult;
import org.lonefibre.analysis.study.StimulationResult;
import org.lonefibre.analysis.study.SweepEntry;
import org.lonefibre.signal.recording.Evidence;
import org.lonefibre.signal.recording.Finding;
import org.lonefibre.signal.recording.FindingCode;

/** Builds studies for tests: a site a signal unless told otherwise. */
final class Signals {

  private final List<RecordingResult> sites = new ArrayList<>();

  List<RecordingResult> sites() {
    return sites;
  }

  Signals pairs(int count, double jitterUs) {
    for (int i = 0; i < count; i++) {
      pair(jitterUs, 0, PairStatus.MEASURED, Grade.SINGLE_FIBRE, Grade.SINGLE_FIBRE);
    }
    return this;
  }

  Signals pair(
      @Nullable Double jitterUs,
      int blocked,
      PairStatus status,
      Grade full,
      Grade trade,
      FindingCode... exclusions) {
    return unit(
        List.of(
            sized(potential("p1", Grade.SINGLE_FIBRE, Grade.SINGLE_FIBRE)),
            sized(potential("p2", full, trade))),
        List.of(pair("p1", "p2", jitterUs, blocked, status, exclusions)));
  }

  Signals unit(List<PotentialResult> potentials, List<PairResult> pairs) {
    return unit(List.of(), potentials, pairs);
  }

  Signals unit(List<Finding> findings, List<PotentialResult> potentials, List<PairResult> pairs) {
    return site(
        List.of(
            new MotorUnitResult(
                "u1", 61, 10.0, 100.0, findings, potentials, pairs, List.of(), null)),
        null);
  }

  /** A pair with one clean follower and these sweeps. */
  Signals sweeps(double jitterUs, List<SweepEntry> sweeps) {
    return unit(
        List.of(
            sized(potential("p1", Grade.SINGLE_FIBRE, Grade.SINGLE_FIBRE)),
            sized(potential("p2", Grade.SINGLE_FIBRE, Grade.SINGLE_FIBRE))),
        List.of(withSweeps(pair("p1", "p2", jitterUs, 0, PairStatus.MEASURED), sweeps)));
  }

  Signals endPlates(int count, double latencyJitterUs) {
    for (int i = 0; i < count; i++) {
      EndPlateResult endPlate =
          new EndPlateResult(
              "e1",
              "p1",
              61,
              61,
              0,
              0,
              0,
              60,
              0.0,
              3000.0,
              latencyJitterUs,
              latencyJitterUs,
              JitterStatistic.MEAN_CONSECUTIVE_DIFFERENCE,
              1.0,
              latencyJitterUs,
              latencyJitterUs,
              latencyJitterUs,
              PairStatus.MEASURED,
              List.of(),
              List.of());
      site(
          null,
          new StimulationResult(
              61,
              10.0,
              null,
              List.of(potential("p1", Grade.SINGLE_FIBRE, Grade.SINGLE_FIBRE)),
              List.of(endPlate),
              null));
    }
    return this;
  }

  private Signals site(
      @Nullable List<MotorUnitResult> units, @Nullable StimulationResult stimulation) {
    sites.add(
        new RecordingResult(
            "made.edf",
            "",
            "EDF+C",
            "site " + (sites.size() + 1),
            0,
            10,
            "EMG",
            50_000,
            10,
            3.0,
            null,
            List.of(),
            units,
            stimulation));
    return this;
  }

  /** Another size at each site, as other fibres have. */
  private PotentialResult sized(PotentialResult one) {
    return new PotentialResult(
        one.id(),
        one.offsetMs(),
        500 * Math.pow(1.2, sites.size()),
        one.riseTimeUs(),
        one.snr(),
        one.arrivalErrorUs(),
        one.presentSweeps(),
        one.grade(),
        one.gradeByTradeRules(),
        one.singleFibreProbability(),
        one.findings(),
        one.drawing());
  }

  static PotentialResult potential(String id, Grade full, Grade trade) {
    return new PotentialResult(id, 0, 500.0, 150.0, 60, 1.0, 61, full, trade, 0.9, List.of(), null);
  }

  static PairResult pair(
      String trigger,
      String paired,
      @Nullable Double jitterUs,
      int blocked,
      PairStatus status,
      FindingCode... exclusions) {
    List<Finding> findings = new ArrayList<>();
    for (FindingCode code : exclusions) {
      findings.add(Finding.exclusion(code, "", Evidence.NONE));
    }
    int present = 61 - blocked;
    return new PairResult(
        trigger + "-" + paired,
        trigger,
        paired,
        61,
        present,
        blocked,
        0,
        0,
        0,
        jitterUs == null ? 5 : 60,
        100.0 * blocked / 61,
        jitterUs == null ? null : -800.0,
        jitterUs,
        jitterUs,
        jitterUs,
        jitterUs == null ? null : JitterStatistic.MEAN_CONSECUTIVE_DIFFERENCE,
        jitterUs == null ? null : 1.0,
        jitterUs,
        jitterUs,
        jitterUs,
        100.0,
        status,
        findings,
        List.of());
  }

  /** The same with sweeps; its counts follow from them. */
  static PairResult withSweeps(PairResult pair, List<SweepEntry> sweeps) {
    int blocked = (int) sweeps.stream().filter(s -> s.state() == SweepState.BLOCKED).count();
    return new PairResult(
        pair.id(),
        pair.triggerPotential(),
        pair.pairedPotential(),
        sweeps.size(),
        sweeps.size() - blocked,
        blocked,
        0,
        0,
        0,
        pair.differences(),
        100.0 * blocked / sweeps.size(),
        pair.meanIntervalUs(),
        pair.meanConsecutiveDifferenceUs(),
        pair.meanSortedDifferenceUs(),
        pair.jitterUs(),
        pair.jitterStatistic(),
        pair.timingFloorUs(),
        pair.correctedJitterUs(),
        pair.correctedJitterLowUs(),
        pair.correctedJitterHighUs(),
        pair.meanInterDischargeIntervalMs(),
        pair.status(),
        pair.findings(),
        sweeps);
  }

  /** Gaussian intervals around -800 us at irregular times, blocked where told. */
  static List<SweepEntry> gaussian(int count, double sdUs, long seed, Integer... blocked) {
    Random random = new Random(seed);
    List<SweepEntry> sweeps = new ArrayList<>();
    double time = 0;
    for (int sweep = 1; sweep <= count; sweep++) {
      time += 0.1 + 0.01 * random.nextGaussian();
      double interval = -800 + sdUs * random.nextGaussian();
      boolean present = !List.of(blocked).contains(sweep);
      sweeps.add(
          new SweepEntry(
              sweep,
              time,
              present ? interval : null,
              present ? 1.0 : null,
              present ? SweepState.PRESENT : SweepState.BLOCKED));
    }
    return sweeps;
  }
}
