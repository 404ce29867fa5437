package org.lonefibre.analysis.grading;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lonefibre.signal.recording.Finding;

/**
 * The judgement of one potential with its evidence.
 *
 * @param grade the full judgement
 * @param gradeByTradeRules the judgement by the rules of thumb alone
 * @param singleFibreProbability probability that one fibre made it; null when ungraded
 * @param amplitudeUv maximum minus minimum of the causal twin, in the unit of the samples
 * @param riseTimeUs rise time of the causal twin
 * @param findings reasons in words
 * @param evidence the aligned shape; null when there was nothing to align
 * @param measures what the full judgement rests on; null when ungraded
 */
public record GradedPotential(
    Grade grade,
    Grade gradeByTradeRules,
    @Nullable Double singleFibreProbability,
    double amplitudeUv,
    @Nullable Double riseTimeUs,
    List<Finding> findings,
    @Nullable ShapeEvidence evidence,
    @Nullable ShapeMeasures measures) {

  /** Copies the findings. */
  public GradedPotential {
    findings = List.copyOf(findings);
  }

  /**
   * Mean and spread of the aligned sweeps.
   *
   * @param startUs time of the first value from the arrival
   * @param stepUs time between values
   * @param meanUv mean at each point
   * @param sdUv standard deviation from sweep to sweep at each point
   */
  public record ShapeEvidence(
      double startUs, double stepUs, List<Double> meanUv, List<Double> sdUv) {

    /** Copies the lists. */
    public ShapeEvidence {
      meanUv = List.copyOf(meanUv);
      sdUv = List.copyOf(sdUv);
    }
  }
}
