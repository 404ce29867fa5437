package org.lonefibre.analysis.reference;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.grading.Grade;
import org.lonefibre.analysis.jitter.JitterStatistic;
import org.lonefibre.analysis.study.EndPlateResult;
import org.lonefibre.analysis.study.MotorUnitResult;
import org.lonefibre.analysis.study.PairResult;
import org.lonefibre.analysis.study.PairStatus;
import org.lonefibre.analysis.study.PotentialResult;
import org.lonefibre.analysis.study.RecordingResult;
import org.lonefibre.analysis.study.StimulationResult;
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
            potential("p1", Grade.SINGLE_FIBRE, Grade.SINGLE_FIBRE), potential("p2", full, trade)),
        List.of(pair("p1", "p2", jitterUs, blocked, status, exclusions)));
  }

  Signals unit(List<PotentialResult> potentials, List<PairResult> pairs) {
    return site(
        List.of(
            new MotorUnitResult(
                "u1", 61, 10.0, 100.0, List.of(), potentials, pairs, List.of(), null)),
        null);
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
}
