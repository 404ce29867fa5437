package org.lonefibre.model.motorunit;

import java.util.ArrayList;
import java.util.List;
import org.lonefibre.model.fibre.FibreGeometry;
import org.lonefibre.model.fibre.FibrePotential;
import org.lonefibre.model.fibre.FibrePotentialSolver;
import org.lonefibre.model.fibre.IntracellularPotential;
import org.lonefibre.model.fibre.NeedleResponse;
import org.lonefibre.model.fibre.Pickup;
import org.lonefibre.model.leadfield.LeadPlane;
import org.lonefibre.model.leadfield.SolvedNeedle;
import org.lonefibre.model.tissue.LeadField;
import org.lonefibre.model.tissue.Tissue;
import org.lonefibre.signal.random.RandomStream;

/**
 * A muscle of motor units strewn at random about a solved needle.
 *
 * <ul>
 *   <li>Each fibre's potential is solved with the lead at its own place. Fibres in the needle's way
 *       are left out: in muscle they are pushed aside.
 *   <li>With a contact, the lead's part in phase at the frequency it was solved at.
 *   <li>Thread rule: safe.
 * </ul>
 */
public final class SampleMuscle {

  /** Time between values of everything here. */
  static final double STEP_US = 10;

  private static final double NEGLIGIBLE_UV = 0.01;
  private static final double UV_PER_OHM = 1.5;
  private static final double FARTHEST_MM = 2;
  private static final double[] PLACES_MM = {-2, -1, -0.5, -0.2, 0, 0.2, 0.5, 1, 2};

  private final SampleMuscleSettings settings;
  private final LeadPlane plane;
  private final Tissue tissue;
  private final IntracellularPotential wave;

  /**
   * Makes the table of leads, which takes about a second.
   *
   * @param settings the muscle
   * @param needle the needle
   * @param tissue the medium it was solved in
   * @param wave the potential inside fibres
   */
  public SampleMuscle(
      SampleMuscleSettings settings,
      SolvedNeedle needle,
      Tissue tissue,
      IntracellularPotential wave) {
    this.settings = settings;
    this.tissue = tissue;
    this.wave = wave;
    plane = new LeadPlane(needle);
  }

  private SampleMuscle(SampleMuscleSettings settings, SampleMuscle other) {
    this.settings = settings;
    tissue = other.tissue;
    wave = other.wave;
    plane = other.plane;
  }

  /** Another muscle about the same needle, whose table is kept. */
  public SampleMuscle with(SampleMuscleSettings newSettings) {
    return new SampleMuscle(newSettings, this);
  }

  SampleMuscleSettings settings() {
    return settings;
  }

  /** Fibres of a unit whose territory holds the needle, those in its way too. */
  List<PlacedFibre> draw(RandomStream stream) {
    return new MuscleDraw(settings).unit(stream);
  }

  /** Fibres of a unit whose territory holds the needle, without those in its way. */
  List<PlacedFibre> unit(RandomStream stream) {
    return clear(draw(stream), 0, 0);
  }

  /** Fibres not in the way of a needle that stands elsewhere, placed beside it. */
  List<PlacedFibre> clear(List<PlacedFibre> fibres, double moreOutMm, double moreSideMm) {
    List<PlacedFibre> left = new ArrayList<>();
    for (PlacedFibre fibre : fibres) {
      PlacedFibre moved = fibre.movedBy(moreOutMm, moreSideMm);
      if (isClear(moved)) {
        left.add(moved);
      }
    }
    return left;
  }

  /** Whether a fibre touches neither core nor needle. */
  boolean isClear(PlacedFibre fibre) {
    double radiusMm = fibre.geometry().diameterUm() / 2000;
    double out = fibre.outMm();
    double side = fibre.sideMm();
    return fibre.distanceMm() > radiusMm
        && !plane.holds(out, side)
        && !plane.holds(out - radiusMm, side)
        && !plane.holds(out + radiusMm, side);
  }

  /**
   * What a fibre near enough to matter does not exceed: the largest lead on its way times the
   * current of a wave, less than {@value #UV_PER_OHM} uV an ohm at 55 um, which grows with the area
   * of the fibre; 0 beyond 2 mm. Beside the shaft the lead turns its sign, so several places are
   * asked.
   */
  double mostUv(PlacedFibre fibre) {
    if (fibre.distanceMm() > FARTHEST_MM) {
      return 0;
    }
    LeadField lead = plane.fibre(fibre.outMm(), fibre.sideMm());
    double largest = 0;
    for (double alongMm : PLACES_MM) {
      largest = Math.max(largest, Math.abs(lead.leadOhm(fibre.distanceMm(), alongMm)));
    }
    double areas = fibre.geometry().diameterUm() / 55;
    return UV_PER_OHM * largest * areas * areas;
  }

  /**
   * Motor units at work, all their fibres about the needle, which was moved until it stood 0.06 to
   * 0.2 mm before a fibre of the first.
   *
   * @param firing how units fire; their rates are drawn
   * @param firstUs mean arrival of a unit's potentials after its discharge or stimulus
   * @param spreadUs by how much units differ in it: up to this later
   * @param stream where chance comes from
   */
  public List<MotorUnitScenario> listUnits(
      FiringSettings firing, double firstUs, double spreadUs, RandomStream stream) {
    List<MotorUnitScenario> units = new ArrayList<>();
    for (int u = 0; u < settings.activeUnits(); u++) {
      RandomStream own = stream.child(u);
      List<PlacedFibre> all = draw(own.child("fibres"));
      RandomStream aim = own.child("aim");
      PlacedFibre first = all.get(aim.below(all.size()));
      double beforeMm = 0.06 + 0.14 * aim.uniformProbability();
      List<PlacedFibre> fibres =
          u == 0 ? clear(all, beforeMm - first.outMm(), -first.sideMm()) : clear(all, 0, 0);
      RandomStream rates = own.child("rate");
      double rateHz =
          settings.lowestRateHz()
              + (settings.highestRateHz() - settings.lowestRateHz()) * rates.uniformProbability();
      double unitUs = firstUs + spreadUs * rates.uniformProbability();
      units.add(
          new UnitOfFibres(settings, unitUs)
              .scenario("M" + (u + 1), firing.withRateHz(rateHz), fibres));
    }
    return units;
  }

  /**
   * The potential of a fibre anywhere about the needle, without cable and filter.
   *
   * @param geometry the fibre, with its distance
   * @param directionDeg from the core's outward normal towards the tip, across the fibres
   * @param stepUs time between values, 0.1 to 20 us
   * @param negligibleUv values below this at either end are cut off
   */
  public FibrePotential potential(
      FibreGeometry geometry, double directionDeg, double stepUs, double negligibleUv) {
    double turn = Math.toRadians(directionDeg);
    double distanceMm = geometry.distanceMm();
    return new FibrePotentialSolver(
            tissue, plane.fibre(distanceMm * Math.cos(turn), distanceMm * Math.sin(turn)), wave)
        .solve(geometry, stepUs, negligibleUv);
  }

  /** The potential of a fibre, from its end-plate's firing, without cable and filter. */
  FibrePotential potential(PlacedFibre fibre) {
    return new FibrePotentialSolver(tissue, plane.fibre(fibre.outMm(), fibre.sideMm()), wave)
        .solve(fibre.geometry(), STEP_US, NEGLIGIBLE_UV);
  }

  /**
   * How many fibres make a spike, over random places of the needle, and fibre density.
   *
   * @param shareRatio what part of the spike's steepest slope makes a fibre count, 0.01 to 0.9
   * @param leastUv smallest spike that is taken, 5 to 5,000 uV
   * @param highPassHz one-pole causal high-pass, 0 for none, up to 5,000 Hz
   * @param spikes how many spikes; fewer are taken if 40 places each do not give them
   * @param stream where chance comes from
   */
  public SpikeCount spikes(
      double shareRatio, double leastUv, double highPassHz, int spikes, RandomStream stream) {
    return new SpikeCounter(this, shareRatio, leastUv, highPassHz).count(spikes, stream);
  }

  /**
   * The fibres of one unit before a needle, and the share of each in the steep phase of the spike.
   *
   * @param beforeMm how far from the core the fibre lies that the needle is put before, 0.03 to 2
   * @param highPassHz one-pole causal high-pass, 0 for none, up to 5,000 Hz
   * @param stream where chance comes from; the same one draws the same unit for every needle
   */
  public SpikeLadder ladder(double beforeMm, double highPassHz, RandomStream stream) {
    if (!(beforeMm >= 0.03 && beforeMm <= 2)) {
      throw new IllegalArgumentException("a fibre lies 0.03 to 2 mm away, found " + beforeMm);
    }
    List<PlacedFibre> all = draw(stream.child("fibres"));
    PlacedFibre first = all.get(stream.child("aim").below(all.size()));
    return SpikeLadder.of(this, clear(all, beforeMm - first.outMm(), -first.sideMm()), highPassHz);
  }

  /**
   * What all fibres beyond a distance give together, filtered.
   *
   * @param beyondMm fibres nearer to the core are left out
   * @param durationS length, 0.2 to 20 s
   * @param sites places of the needle, over which power is averaged
   * @param response the needle's impedance, for cable and noise
   * @param pickup cable; its filter is ignored
   * @param stream where chance comes from
   */
  public MuscleBackground background(
      double beyondMm,
      double durationS,
      int sites,
      NeedleResponse response,
      Pickup pickup,
      RandomStream stream) {
    return new MuscleBackground(this, beyondMm, durationS, sites, response, pickup, stream);
  }
}
