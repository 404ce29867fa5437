package org.lonefibre.model.simulation;

/**
 * Memory that recording a study takes at its height, estimated from above before anything is drawn.
 *
 * <ul>
 *   <li>A site at work: samples and noise side by side (8 bytes each), then samples and what is
 *       stored of them; one unit's arrivals; the fibres drawn.
 *   <li>Kept to the end: the truth of every named fibre, an object an arrival, and its text when it
 *       is written.
 *   <li>A solved needle: matrices of two meshes.
 * </ul>
 */
final class MemoryNeed {

  private static final long SAMPLE_BYTES = 17;
  private static final long ARRIVAL_BYTES = 9;
  private static final long TRUTH_BYTES = 100;
  private static final long FIBRE_BYTES = 400;
  private static final long NEEDLE_BYTES = 250_000_000;
  private static final long REST_BYTES = 40_000_000;

  /** Named fibres of a unit: more than three are rare, near a cluster too. */
  private static final double NAMED_FIBRES = 5;

  private static final double HIGHEST_RATE_HZ = 14;

  private final StudyScenario study;

  MemoryNeed(StudyScenario study) {
    this.study = study;
  }

  long bytes(int sitesAtOnce) {
    boolean strewn = study.sampleMuscleUse() != SampleMuscleUse.NONE;
    double rateHz =
        strewn ? Math.max(HIGHEST_RATE_HZ, study.sampleMuscle().highestRateHz()) : HIGHEST_RATE_HZ;
    double discharges = rateHz * study.durationS();
    int fibres = strewn ? study.sampleMuscle().fibresPerUnit() : study.background().fibresPerUnit();
    double units =
        study.sampleMuscleUse() == SampleMuscleUse.WHOLE
            ? study.sampleMuscle().activeUnits()
            : 1 + study.extraUnitsRatio();
    double drawn = strewn ? (double) fibres * study.sampleMuscle().activeUnits() : 0;
    double site =
        SAMPLE_BYTES * study.samplingRateHz() * study.durationS()
            + ARRIVAL_BYTES * discharges * fibres;
    double kept =
        study.sites()
            * (FIBRE_BYTES * drawn + TRUTH_BYTES * discharges * units * (1 + NAMED_FIBRES));
    double needed =
        Math.min(sitesAtOnce, study.sites()) * site
            + kept
            + (study.shapes().isSolved() ? NEEDLE_BYTES : 0)
            + REST_BYTES;
    return (long) needed;
  }
}
