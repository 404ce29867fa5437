package org.lonefibre.workbench.declaration;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.grading.Grade;
import org.lonefibre.analysis.study.Examination;
import org.lonefibre.analysis.study.MotorUnitResult;
import org.lonefibre.analysis.study.PairResult;
import org.lonefibre.analysis.study.PotentialResult;
import org.lonefibre.analysis.study.RecordingResult;

/**
 * A recording whose truth is known, and the one potential in it that is to be judged.
 *
 * @param examination what the chain measured of it, a study of one part and one site
 * @param unit the motor unit
 * @param pair the pair of its trigger and the potential to be judged
 * @param potential the potential to be judged
 * @param truth what truly happened
 */
public record PracticeCase(
    Examination examination,
    MotorUnitResult unit,
    PairResult pair,
    PotentialResult potential,
    Truth truth) {

  /**
   * What truly happened.
   *
   * @param kind what the case is an example of, in a few words
   * @param grade single-fibre or composite
   * @param fibres those that make the potential, the largest first
   * @param jitterUs mean consecutive difference of the interval from the trigger to the largest
   *     fibre, as it was realised; null if it never fired in neighbouring discharges
   * @param blockedSweeps of the sweeps drawn, those in which no fibre of the potential fired
   */
  public record Truth(
      String kind,
      Grade grade,
      List<Fibre> fibres,
      @Nullable Double jitterUs,
      List<Integer> blockedSweeps) {

    /** Copies the lists. */
    public Truth {
      fibres = List.copyOf(fibres);
      blockedSweeps = List.copyOf(blockedSweeps);
    }
  }

  /**
   * A fibre of the potential.
   *
   * @param offsetMs mean arrival after the trigger
   * @param amplitudeUv maximum minus minimum of what it gives
   * @param jitterUs mean consecutive difference that the law of its end-plate gives
   * @param blockingPercent discharges at which it did not fire
   */
  public record Fibre(
      double offsetMs, double amplitudeUv, double jitterUs, double blockingPercent) {}

  /** The site. */
  public RecordingResult site() {
    return examination.studies().get(0).recordings().get(0);
  }
}
