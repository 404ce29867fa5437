package org.lonefibre.model.fibre;

import org.jtransforms.fft.DoubleFFT_1D;
import org.lonefibre.model.leadfield.NeedleLead;
import org.lonefibre.model.tissue.Tissue;

/**
 * The potential of a fibre at a solved needle, through cable and filter.
 *
 * <ol>
 *   <li>{@link FibrePotentialSolver} convolves the fibre's wave with the lead along it, for each
 *       frequency at which the needle is known, real and imaginary part apart.
 *   <li>In the frequency domain those are interpolated, and cable and filter applied.
 * </ol>
 *
 * <ul>
 *   <li>With one real lead and nothing after the needle, the first step is all.
 *   <li>Thread rule: safe.
 * </ul>
 */
public final class NeedlePotentialSolver {

  private final NeedleResponse response;
  private final FibrePotentialSolver[] real;
  private final FibrePotentialSolver[] imaginary;

  /**
   * @param tissue the medium, the needle's own
   * @param response the needle
   * @param wave the potential inside the fibre
   * @param aroundDeg direction of the fibres from the core's normal, as in {@link NeedleLead}
   */
  public NeedlePotentialSolver(
      Tissue tissue, NeedleResponse response, IntracellularPotential wave, double aroundDeg) {
    this.response = response;
    real = new FibrePotentialSolver[response.size()];
    imaginary = new FibrePotentialSolver[response.size()];
    for (int k = 0; k < real.length; k++) {
      real[k] =
          new FibrePotentialSolver(tissue, response.lead(k, aroundDeg, NeedleLead.Part.REAL), wave);
      imaginary[k] =
          new FibrePotentialSolver(
              tissue, response.lead(k, aroundDeg, NeedleLead.Part.IMAGINARY), wave);
    }
  }

  /**
   * Solves one fibre.
   *
   * @param geometry the fibre
   * @param stepUs time between the values, 0.1 to 20 us
   * @param pickup what stands after the needle
   */
  public FibrePotential solve(FibreGeometry geometry, double stepUs, Pickup pickup) {
    FibrePotential first = real[0].solve(geometry, stepUs, 0);
    if (response.size() == 1 && !response.hasPhase(0) && pickup.isRaw()) {
      return first;
    }
    int size = Integer.highestOneBit(2 * first.size() - 1) * 2;
    DoubleFFT_1D transform = new DoubleFFT_1D(size);
    double[][] inPhase = new double[real.length][];
    double[][] ahead = new double[real.length][];
    for (int k = 0; k < real.length; k++) {
      FibrePotential own = k == 0 ? first : real[k].solve(geometry, stepUs, 0);
      inPhase[k] = spectrum(transform, own, size);
      ahead[k] =
          response.hasPhase(k)
              ? spectrum(transform, imaginary[k].solve(geometry, stepUs, 0), size)
              : new double[size];
    }
    double[] sum = new double[size];
    for (int bin = 1; bin < size / 2; bin++) {
      double frequencyHz = bin * 1e6 / (size * stepUs);
      double[] value = interpolated(inPhase, ahead, bin, response.place(frequencyHz));
      double[] transfer = pickup.transfer(frequencyHz, response.impedanceOhm(frequencyHz));
      sum[2 * bin] = value[0] * transfer[0] - value[1] * transfer[1];
      sum[2 * bin + 1] = value[0] * transfer[1] + value[1] * transfer[0];
    }
    sum[0] = pickup.highPassHz() == 0 ? inPhase[0][0] : 0;
    transform.realInverse(sum, true);
    double[] values = java.util.Arrays.copyOf(sum, first.size());
    return new FibrePotential(first.startUs(), stepUs, values);
  }

  private static double[] interpolated(
      double[][] inPhase, double[][] ahead, int bin, double place) {
    int low = (int) place;
    int high = Math.min(low + 1, inPhase.length - 1);
    double share = place - low;
    double re = 0;
    double im = 0;
    for (int k = low; ; k = high) {
      double weight = low == high ? 1 : k == low ? 1 - share : share;
      re += weight * (inPhase[k][2 * bin] - ahead[k][2 * bin + 1]);
      im += weight * (inPhase[k][2 * bin + 1] + ahead[k][2 * bin]);
      if (k == high) {
        return new double[] {re, im};
      }
    }
  }

  private static double[] spectrum(DoubleFFT_1D transform, FibrePotential potential, int size) {
    double[] values = java.util.Arrays.copyOf(potential.copyUv(), size);
    transform.realForward(values);
    return values;
  }
}
