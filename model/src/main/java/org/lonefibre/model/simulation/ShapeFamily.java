package org.lonefibre.model.simulation;

import org.jspecify.annotations.Nullable;
import org.lonefibre.model.electrode.Needles;
import org.lonefibre.model.fibre.FibrePotentialSolver;
import org.lonefibre.model.fibre.IntracellularPotential;
import org.lonefibre.model.motorunit.SampleMuscle;
import org.lonefibre.model.motorunit.SampleMuscleSettings;
import org.lonefibre.model.tissue.LeadField;
import org.lonefibre.model.tissue.Tissue;

/** A family of shapes: wave inside the fibre, electrode, colour of the noise. */
public enum ShapeFamily {
  /** Cubic wave, a point electrode against a point 0.35 mm behind, white noise. */
  CUBIC_POINT(null),
  /**
   * Another wave, an electrode that averages over 0.30 mm by 0.08 mm against a point 0.6 mm behind,
   * noise reddened below 1.2 kHz: held out while measures are tuned.
   */
  QUARTIC_SURFACE(null),
  /** Cubic wave at the solved single-fibre needle, ideal metal, white noise. */
  SOLVED_SINGLE_FIBRE("single-fibre"),
  /** Cubic wave at the solved small concentric needle, ideal metal, white noise. */
  SOLVED_CONCENTRIC_SMALL("concentric-small"),
  /** Cubic wave at the solved standard concentric needle, ideal metal, white noise. */
  SOLVED_CONCENTRIC_STANDARD("concentric-standard");

  private final @Nullable String needle;

  ShapeFamily(@Nullable String needle) {
    this.needle = needle;
  }

  public FibrePotentialSolver solver(Tissue tissue) {
    return new FibrePotentialSolver(tissue, lead(tissue), wave());
  }

  /**
   * Potentials of fibres straight before the core, or anywhere about it if a direction is given.
   */
  FibreSource source(Tissue tissue) {
    FibrePotentialSolver before = solver(tissue);
    return (fibre, stepUs, negligibleUv) ->
        needle == null || fibre.directionDeg() == 0
            ? before.solve(fibre.geometry(), stepUs, negligibleUv)
            : muscle(tissue, SampleMuscleSettings.healthy())
                .potential(fibre.geometry(), fibre.directionDeg(), stepUs, negligibleUv);
  }

  /**
   * A sample muscle about the solved needle.
   *
   * @throws IllegalArgumentException if no needle is solved
   */
  SampleMuscle muscle(Tissue tissue, SampleMuscleSettings settings) {
    if (needle == null) {
      throw new IllegalArgumentException(
          "a sample muscle needs a solved needle: shapes SOLVED_SINGLE_FIBRE,"
              + " SOLVED_CONCENTRIC_SMALL or SOLVED_CONCENTRIC_STANDARD, found "
              + name());
    }
    return SolvedLeads.muscle(Needles.builtIn(needle), tissue, wave(), settings);
  }

  private IntracellularPotential wave() {
    return this == QUARTIC_SURFACE
        ? IntracellularPotential.quarticWithAfterpotential()
        : IntracellularPotential.defaults();
  }

  private LeadField lead(Tissue tissue) {
    if (needle != null) {
      return SolvedLeads.of(Needles.builtIn(needle), tissue);
    }
    return this == CUBIC_POINT
        ? LeadField.point(tissue).againstPointBehind(tissue, 0.35)
        : LeadField.surface(tissue, 0.30, 0.08).againstPointBehind(tissue, 0.6);
  }

  /** What records, in words. */
  String recordedWith() {
    return needle == null ? StudyPlan.POINT_NEEDLE : needle + ", solved in muscle";
  }

  /** Whether a needle is solved. */
  boolean isSolved() {
    return needle != null;
  }

  /** Whether end-plates are skewed too, which nothing was tuned on. */
  boolean isHeldOut() {
    return this == QUARTIC_SURFACE;
  }

  /** Share of low frequencies added to white noise, over white. */
  double reddeningRatio() {
    return this == QUARTIC_SURFACE ? 2 : 0;
  }
}
