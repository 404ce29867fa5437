package org.lonefibre.model.leadfield;

import java.util.LinkedHashMap;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.lonefibre.model.electrode.Needle;
import org.lonefibre.model.tissue.Tissue;

/**
 * Solves a needle on finer and finer meshes until the field stays.
 *
 * <ol>
 *   <li>Two meshes, the second with twice the triangles; the field is what both point to. Its error
 *       is stated as half the change between them, in resistance and in lead from 0.02 to 1 mm
 *       before the core: the true one was less in every needle, medium and angle tried
 *       (docs/needle.md).
 *   <li>While that is more than asked for, a third and a fourth.
 *   <li>A field whose rows do not sum to -1/2, whose currents do not balance, or that does not stay
 *       is refused.
 * </ol>
 *
 * <ul>
 *   <li>Meshes and matrices are kept for the next solution of the same needle, medium and angle;
 *       with a {@link LeadFieldCache}, solutions are kept on disk.
 *   <li>Thread rule: one thread; works on all processors.
 * </ul>
 */
public final class LeadFieldSolver {

  private static final double[] FINENESS = {0.75, 1.06, 1.5, 2.12, 3};
  private static final double[] CHECKED_MM = {0.02, 0.05, 0.1, 0.3, 1};

  /** What extrapolation leaves of a change, at most, in all needles and media tried. */
  private static final double LEFT_RATIO = 0.75;

  private static final double WORST_ROW = 1e-3;
  private static final double WORST_FLUX = 0.03;
  private static final int MOST_UNKNOWNS = 6500;

  private final @Nullable LeadFieldCache cache;
  private final Map<Double, NeedleSystem> systems = new LinkedHashMap<>();
  private String systemKey = "";

  /** Keeps nothing on disk. */
  public LeadFieldSolver() {
    this.cache = null;
  }

  /** Keeps solutions on disk. */
  public LeadFieldSolver(LeadFieldCache cache) {
    this.cache = cache;
  }

  /**
   * Solves a needle as it is made.
   *
   * @throws LeadFieldException if the field cannot be had as exactly as asked
   */
  public SolvedNeedle solve(Needle needle, LeadFieldSettings settings) {
    return solve(needle, NeedleSystem.complete(needle), settings);
  }

  /**
   * Solves a needle, or less than all of it.
   *
   * @throws LeadFieldException if the field cannot be had as exactly as asked
   */
  public SolvedNeedle solve(Needle needle, Construction construction, LeadFieldSettings settings) {
    LeadFieldKey key = new LeadFieldKey(needle, construction, settings);
    if (cache != null) {
      SolvedNeedle kept = cache.find(key);
      if (kept != null) {
        return kept;
      }
    }
    SolvedNeedle solved = refine(needle, construction, settings);
    if (cache != null) {
      cache.keep(key, solved);
    }
    return solved;
  }

  /**
   * Solves a needle on one mesh, neither refined nor kept: for studies of cost and convergence.
   *
   * @param finenessRatio as in {@link org.lonefibre.model.electrode.NeedleMesh#half}
   * @throws LeadFieldException if the surface leaks or the currents do not balance
   */
  public SolvedNeedle solveOn(double finenessRatio, Needle needle, LeadFieldSettings settings) {
    return new LeadFieldSolver().on(finenessRatio, needle, NeedleSystem.complete(needle), settings);
  }

  private SolvedNeedle refine(
      Needle needle, Construction construction, LeadFieldSettings settings) {
    SolvedNeedle coarse = on(FINENESS[0], needle, construction, settings);
    double error = 1;
    for (int step = 1; step < FINENESS.length; step++) {
      int next = (int) (coarse.unknowns() * square(FINENESS[step] / FINENESS[step - 1]));
      if (next > MOST_UNKNOWNS) {
        break;
      }
      SolvedNeedle fine = on(FINENESS[step], needle, construction, settings);
      error = LEFT_RATIO * difference(coarse, fine);
      if (error <= settings.accuracyRatio()) {
        MeshReport report = fine.report();
        return fine.beyond(
            coarse,
            new MeshReport(
                report.triangles(), report.rowSumErrorRatio(), report.fluxErrorRatio(), error));
      }
      coarse = fine;
    }
    throw new LeadFieldException(
        "the field of needle "
            + needle.name()
            + " is still uncertain by "
            + percent(error)
            + " on the finest mesh, "
            + percent(settings.accuracyRatio())
            + " was asked");
  }

  private SolvedNeedle on(
      double fineness, Needle needle, Construction construction, LeadFieldSettings settings) {
    SolvedNeedle solved =
        system(needle, settings.tissue(), settings.angleDeg(), fineness)
            .solve(construction, settings.coreContact(), settings.shaftContact());
    MeshReport report = solved.report();
    if (!(report.rowSumErrorRatio() <= WORST_ROW)) {
      throw new LeadFieldException(
          "the surface of needle "
              + needle.name()
              + " leaks: its rows miss -1/2 by "
              + report.rowSumErrorRatio());
    }
    if (!(report.fluxErrorRatio() <= WORST_FLUX)) {
      throw new LeadFieldException(
          "the currents of needle "
              + needle.name()
              + " do not balance: "
              + percent(report.fluxErrorRatio())
              + " is missing");
    }
    return solved;
  }

  private NeedleSystem system(Needle needle, Tissue tissue, double angleDeg, double fineness) {
    String wanted = LeadFieldKey.geometry(needle) + tissue + angleDeg;
    if (!wanted.equals(systemKey)) {
      systems.clear();
      systemKey = wanted;
    }
    return systems.computeIfAbsent(fineness, f -> new NeedleSystem(needle, tissue, angleDeg, f));
  }

  private static double difference(SolvedNeedle coarse, SolvedNeedle fine) {
    double worst = Math.abs(coarse.coreToReferenceOhm() / fine.coreToReferenceOhm() - 1);
    for (double distanceMm : CHECKED_MM) {
      double before = Complex.magnitude(coarse.leadOhm(0, distanceMm, 0));
      double after = Complex.magnitude(fine.leadOhm(0, distanceMm, 0));
      worst = Math.max(worst, Math.abs(before / after - 1));
    }
    return worst;
  }

  private static String percent(double ratio) {
    return Math.round(ratio * 1000) / 10.0 + " %";
  }

  private static double square(double x) {
    return x * x;
  }
}
