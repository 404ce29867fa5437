package org.lonefibre.validation.campaign;

/**
 * A condition of recordings with two potentials of known arrival.
 *
 * @param rateHz sampling rate
 * @param isColoured noise strong below 1 kHz, else white
 * @param snrRatio peak to peak over noise, both as conditioned
 * @param distanceUs from the first potential to the second
 */
public record TimingCell(double rateHz, boolean isColoured, double snrRatio, double distanceUs) {

  /** Power of coloured noise at low frequencies over that at high ones, less one; as amplitude. */
  private static final double RED_RATIO = 2;

  private static final double RED_HZ = 1000;

  String key() {
    return "timing/" + rateHz + "/" + isColoured + "/" + snrRatio + "/" + distanceUs;
  }

  /** Feedback of the one pole that colours the noise. */
  private double pole() {
    return Math.exp(-2 * Math.PI * RED_HZ / rateHz);
  }

  /** White noise of unit variance made as this cell's, in place. */
  void colour(double[] white) {
    if (!isColoured) {
      return;
    }
    double pole = pole();
    double state = 0;
    for (int i = 0; i < white.length; i++) {
      state = pole * state + (1 - pole) * white[i];
      white[i] += RED_RATIO * state;
    }
  }

  /** Variance of that noise at an angular frequency. */
  double noisePower(double radians) {
    if (!isColoured) {
      return 1;
    }
    double pole = pole();
    double re = 1 - pole * Math.cos(radians);
    double im = pole * Math.sin(radians);
    double size = re * re + im * im;
    double share = RED_RATIO * (1 - pole) / size;
    double a = 1 + share * re;
    double b = -share * im;
    return a * a + b * b;
  }
}
