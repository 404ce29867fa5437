package org.lonefibre.model.fibre;

import java.util.Arrays;
import org.lonefibre.model.tissue.LeadField;
import org.lonefibre.model.tissue.Tissue;

/**
 * The potential of a fibre of finite length at an electrode.
 *
 * <p>Membrane current per length is pi a^2 s_i d2V/dx2; at the sealed ends and at the end-plate,
 * where the slope jumps, the axial current leaves or enters as a point. Summed over the fibre with
 * the lead and integrated by parts this is
 *
 * <p>potential(t) = pi a^2 s_i integral of V'(v t - x) [lead'(x - e) over 0..towards + lead'(x + e)
 * over 0..away] dx,
 *
 * <p>x from the end-plate outwards on both sides, e the electrode's place (line-source model,
 * Andreassen and Rosenfalck 1978, from memory; boundary terms derived here).
 *
 * <ul>
 *   <li>Thread rule: immutable.
 * </ul>
 */
public final class FibrePotentialSolver {

  private static final double COARSE_STEP_US = 8;
  private static final double FARTHEST_MM = 10;

  private final Tissue tissue;
  private final LeadField lead;
  private final IntracellularPotential wave;

  /**
   * @param tissue the medium, whose inner conductivity carries the axial current
   * @param lead the electrode
   * @param wave the potential inside the fibre
   */
  public FibrePotentialSolver(Tissue tissue, LeadField lead, IntracellularPotential wave) {
    this.tissue = tissue;
    this.lead = lead;
    this.wave = wave;
  }

  /**
   * Solves one fibre.
   *
   * @param geometry the fibre
   * @param stepUs time between the values, 0.1 to 20 us
   * @param negligibleUv values below this at either end are cut off
   */
  public FibrePotential solve(FibreGeometry geometry, double stepUs, double negligibleUv) {
    if (!(stepUs >= 0.1 && stepUs <= 20)) {
      throw new IllegalArgumentException("time step must be 0.1 to 20 us, found " + stepUs);
    }
    double[] values = integrate(geometry, stepUs);
    int first = 0;
    int last = values.length - 1;
    while (first < last - 64 && Math.abs(values[first]) < negligibleUv) {
      first++;
    }
    while (last > first + 64 && Math.abs(values[last]) < negligibleUv) {
      last--;
    }
    return new FibrePotential(first * stepUs, stepUs, Arrays.copyOfRange(values, first, last + 1));
  }

  /**
   * The distance at which a fibre gives a wanted amplitude (maximum minus minimum), found by
   * halving the logarithm; the nearest or farthest distance possible if no distance gives it.
   *
   * @param geometry the fibre; its distance is ignored
   * @param amplitudeUv wanted, above 0
   */
  public FibreGeometry atAmplitude(FibreGeometry geometry, double amplitudeUv) {
    if (!(amplitudeUv > 0)) {
      throw new IllegalArgumentException("amplitude must be above 0 uV, found " + amplitudeUv);
    }
    double near = nearestMm(geometry);
    double far = FARTHEST_MM;
    for (int i = 0; i < 24; i++) {
      double middle = Math.sqrt(near * far);
      double[] values = integrate(geometry.withDistanceMm(middle), COARSE_STEP_US);
      if (new FibrePotential(0, COARSE_STEP_US, values).amplitudeUv() > amplitudeUv) {
        near = middle;
      } else {
        far = middle;
      }
    }
    return geometry.withDistanceMm(Math.sqrt(near * far));
  }

  private static double nearestMm(FibreGeometry geometry) {
    return geometry.diameterUm() / 2000 + 0.005;
  }

  private double[] integrate(FibreGeometry geometry, double stepUs) {
    double stepMm = geometry.velocityMPerS() * stepUs * 1e-3;
    double longest = Math.max(geometry.towardsTendonMm(), geometry.awayTendonMm());
    int steps = (int) Math.ceil((longest + wave.extentMm()) / stepMm) + 1;
    double[] slopes = slopes(geometry, stepMm, steps);
    double radiusMm = geometry.diameterUm() / 2000;
    double strength = Math.PI * radiusMm * radiusMm * tissue.insideSPerM();
    double[] values = new double[steps];
    for (IntracellularPotential.Term term : wave.terms()) {
      WaveConvolution convolution = new WaveConvolution(term, stepMm);
      for (int i = 0; i < steps; i++) {
        values[i] += strength * convolution.next(slopes[i]);
      }
    }
    return values;
  }

  private double[] slopes(FibreGeometry geometry, double stepMm, int steps) {
    double[] slopes = new double[steps];
    addBranch(slopes, geometry, geometry.towardsTendonMm(), -1, stepMm);
    addBranch(slopes, geometry, geometry.awayTendonMm(), 1, stepMm);
    return slopes;
  }

  private void addBranch(
      double[] slopes, FibreGeometry geometry, double lengthMm, int side, double stepMm) {
    int last = (int) Math.round(lengthMm / stepMm);
    int count = Math.min(last + 1, slopes.length);
    double[] branch =
        lead.slopesOhmPerMm(
            geometry.distanceMm(), side * geometry.endPlateDistanceMm(), stepMm, count);
    for (int i = 0; i < count; i++) {
      slopes[i] += (i == 0 || i == last ? 0.5 : 1) * branch[i];
    }
  }
}
