package org.lonefibre.model.fibre;

/**
 * What more distance does to a potential, as a one-pole low-pass: a gain and a time constant.
 *
 * <p>Source: the form of Gath and Stalberg (1977, abstract), who measured 0.55 and 69 us for 76 um.
 *
 * @param gainRatio gain at low frequencies
 * @param timeConstantUs time constant
 */
public record RadialFilter(double gainRatio, double timeConstantUs) {

  private static final double FROM_HZ = 500;
  private static final double TO_HZ = 5000;
  private static final double STEP_HZ = 50;

  /**
   * Fits it to two spectra from 0.5 to 5 kHz: the square of near over far is a straight line in the
   * square of the frequency, each point weighted by the far power.
   */
  public static RadialFilter between(PotentialSpectrum near, PotentialSpectrum far) {
    double weights = 0;
    double sumX = 0;
    double sumY = 0;
    double sumXx = 0;
    double sumXy = 0;
    for (double hz = FROM_HZ; hz <= TO_HZ; hz += STEP_HZ) {
      double a = near.amplitudeUvPerHz(hz);
      double b = far.amplitudeUvPerHz(hz);
      double weight = b * b * b * b / (a * a);
      double x = Math.pow(2 * Math.PI * hz, 2);
      double y = a * a / (b * b);
      weights += weight;
      sumX += weight * x;
      sumY += weight * y;
      sumXx += weight * x * x;
      sumXy += weight * x * y;
    }
    double slope = (weights * sumXy - sumX * sumY) / (weights * sumXx - sumX * sumX);
    double start = (sumY - slope * sumX) / weights;
    double gain = start > 0 ? 1 / Math.sqrt(start) : 1;
    return new RadialFilter(gain, 1e6 * gain * Math.sqrt(Math.max(0, slope)));
  }
}
