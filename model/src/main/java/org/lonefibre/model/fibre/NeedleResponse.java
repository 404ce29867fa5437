package org.lonefibre.model.fibre;

import java.util.List;
import org.lonefibre.model.leadfield.NeedleLead;
import org.lonefibre.model.leadfield.SolvedNeedle;

/**
 * A solved needle, at one frequency or at several because its contact depends on it.
 *
 * <ul>
 *   <li>Between frequencies it is interpolated along their logarithm; beyond the ends it stays.
 *   <li>Thread rule: safe.
 * </ul>
 */
public final class NeedleResponse {

  private static final double BOLTZMANN = 1.380649e-23;
  private static final double BODY_KELVIN = 310;

  private final double[] frequenciesHz;
  private final List<SolvedNeedle> needles;

  private NeedleResponse(double[] frequenciesHz, List<SolvedNeedle> needles) {
    this.frequenciesHz = frequenciesHz;
    this.needles = needles;
  }

  /** The same at all frequencies. */
  public static NeedleResponse flat(SolvedNeedle needle) {
    return new NeedleResponse(new double[] {1000}, List.of(needle));
  }

  /**
   * One solution a frequency.
   *
   * @param frequenciesHz rising, above 0; as many as needles
   */
  public static NeedleResponse over(double[] frequenciesHz, List<SolvedNeedle> needles) {
    if (frequenciesHz.length != needles.size() || needles.isEmpty()) {
      throw new IllegalArgumentException(
          "expected a needle for each of "
              + frequenciesHz.length
              + " frequencies, found "
              + needles.size());
    }
    return new NeedleResponse(frequenciesHz.clone(), List.copyOf(needles));
  }

  /** Number of frequencies. */
  int size() {
    return needles.size();
  }

  boolean hasPhase(int index) {
    return needles.get(index).hasPhase();
  }

  NeedleLead lead(int index, double aroundDeg, NeedleLead.Part part) {
    return new NeedleLead(needles.get(index), aroundDeg, part);
  }

  /** Impedance at a frequency, real and imaginary part. */
  public double[] impedanceOhm(double frequencyHz) {
    double place = place(frequencyHz);
    int low = (int) place;
    double share = place - low;
    SolvedNeedle before = needles.get(low);
    SolvedNeedle after = needles.get(Math.min(low + 1, needles.size() - 1));
    return new double[] {
      before.coreResistanceOhm() * (1 - share) + after.coreResistanceOhm() * share,
      before.coreReactanceOhm() * (1 - share) + after.coreReactanceOhm() * share
    };
  }

  /** Place among the frequencies: index below, and the share of the way to the next. */
  double place(double frequencyHz) {
    int last = frequenciesHz.length - 1;
    if (frequencyHz <= frequenciesHz[0]) {
      return 0;
    }
    if (frequencyHz >= frequenciesHz[last]) {
      return last;
    }
    int low = 0;
    while (frequencyHz > frequenciesHz[low + 1]) {
      low++;
    }
    return low
        + Math.log(frequencyHz / frequenciesHz[low])
            / Math.log(frequenciesHz[low + 1] / frequenciesHz[low]);
  }

  /**
   * Thermal noise between two frequencies at 310 K, root mean square: 4 k T Re(Z) per Hz (Johnson
   * and Nyquist 1928, textbook).
   */
  public double thermalNoiseUv(double fromHz, double toHz) {
    if (!(toHz > fromHz && fromHz >= 0)) {
      throw new IllegalArgumentException(
          "a band must rise from 0 Hz or more, found " + fromHz + " to " + toHz);
    }
    int steps = 200;
    double sum = 0;
    for (int i = 0; i < steps; i++) {
      double frequencyHz = fromHz + (toHz - fromHz) * (i + 0.5) / steps;
      sum += impedanceOhm(frequencyHz)[0] * (toHz - fromHz) / steps;
    }
    return 1e6 * Math.sqrt(4 * BOLTZMANN * BODY_KELVIN * sum);
  }
}
