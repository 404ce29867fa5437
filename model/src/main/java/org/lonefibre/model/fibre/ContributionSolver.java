package org.lonefibre.model.fibre;

import org.lonefibre.model.electrode.Needle;
import org.lonefibre.model.electrode.Reference;
import org.lonefibre.model.leadfield.Construction;
import org.lonefibre.model.leadfield.Contact;
import org.lonefibre.model.leadfield.LeadFieldSettings;
import org.lonefibre.model.leadfield.LeadFieldSolver;
import org.lonefibre.model.tissue.LeadField;

/**
 * Takes a needle's effect apart: point, averaging, insulation, metal, cannula, contact, cable,
 * filter, each switched on after the ones before. Another order gives other factors; the total
 * stays.
 *
 * <p>Thread rule: one thread.
 */
public final class ContributionSolver {

  private final FibrePotentialSolver point;
  private final NeedlePotentialSolver alone;
  private final NeedlePotentialSolver insulated;
  private final NeedlePotentialSolver metal;
  private final NeedlePotentialSolver ideal;
  private final NeedlePotentialSolver whole;
  private final FibreGeometry fibre;
  private final Pickup pickup;
  private final double stepUs;

  /**
   * Solves the needle in its stages.
   *
   * @param needle the needle
   * @param settings medium and angle; contacts are left out
   * @param response the needle with its contact
   * @param wave the potential inside the fibre
   * @param fibre the fibre; its distance is ignored
   * @param pickup what stands after the needle
   * @param stepUs time between values, 0.1 to 20 us
   * @param solver where stages are solved
   */
  public ContributionSolver(
      Needle needle,
      LeadFieldSettings settings,
      NeedleResponse response,
      IntracellularPotential wave,
      FibreGeometry fibre,
      Pickup pickup,
      double stepUs,
      LeadFieldSolver solver) {
    LeadFieldSettings bare = settings.withContacts(Contact.IDEAL, Contact.IDEAL);
    this.fibre = fibre;
    this.pickup = pickup;
    this.stepUs = stepUs;
    point = new FibrePotentialSolver(bare.tissue(), LeadField.point(bare.tissue()), wave);
    alone = stage(needle, Construction.CORE_ALONE, bare, wave, solver);
    insulated = stage(needle, Construction.EVEN_CORE, bare, wave, solver);
    metal = stage(needle, Construction.METAL_CORE, bare, wave, solver);
    ideal =
        needle.reference() == Reference.CANNULA
            ? stage(needle, Construction.METAL_SHAFT, bare, wave, solver)
            : metal;
    whole = new NeedlePotentialSolver(bare.tissue(), response, wave, 0);
  }

  private static NeedlePotentialSolver stage(
      Needle needle,
      Construction construction,
      LeadFieldSettings settings,
      IntracellularPotential wave,
      LeadFieldSolver solver) {
    return new NeedlePotentialSolver(
        settings.tissue(),
        NeedleResponse.flat(solver.solve(needle, construction, settings)),
        wave,
        0);
  }

  /** The contributions at a distance along the core's normal. */
  public Contribution at(double distanceMm) {
    FibreGeometry geometry = fibre.withDistanceMm(distanceMm);
    double start = point.solve(geometry, stepUs, 0).amplitudeUv();
    double averaged = amplitude(alone, geometry, Pickup.raw());
    double covered = amplitude(insulated, geometry, Pickup.raw());
    double evened = amplitude(metal, geometry, Pickup.raw());
    double referenced = amplitude(ideal, geometry, Pickup.raw());
    double touched = amplitude(whole, geometry, Pickup.raw());
    double loaded = amplitude(whole, geometry, new Pickup(pickup.cable(), 0));
    double total = amplitude(whole, geometry, pickup);
    return new Contribution(
        distanceMm,
        start,
        averaged / start,
        covered / averaged,
        evened / covered,
        referenced / evened,
        touched / referenced,
        loaded / touched,
        total / loaded,
        total);
  }

  private double amplitude(NeedlePotentialSolver solver, FibreGeometry geometry, Pickup after) {
    return solver.solve(geometry, stepUs, after).amplitudeUv();
  }
}
