package org.lonefibre.model.simulation;

/**
 * One section of a digital filter, made by the bilinear transform. Written here because the bits
 * must be the same on every machine, which needs StrictMath in the design.
 */
final class Biquad {

  private final double b0;
  private final double b1;
  private final double b2;
  private final double a1;
  private final double a2;

  private Biquad(double b0, double b1, double b2, double a1, double a2) {
    this.b0 = b0;
    this.b1 = b1;
    this.b2 = b2;
    this.a1 = a1;
    this.a2 = a2;
  }

  /** A Butterworth low-pass of the fourth order as two sections. */
  static Biquad[] fourthOrderLowPass(double cutHz, double rateHz) {
    Biquad[] sections = new Biquad[2];
    for (int i = 0; i < 2; i++) {
      double damping = 2 * StrictMath.cos(Math.PI * (2 * i + 1) / 8);
      double w = StrictMath.tan(Math.PI * cutHz / rateHz);
      double norm = 1 + damping * w + w * w;
      sections[i] =
          new Biquad(
              w * w / norm,
              2 * w * w / norm,
              w * w / norm,
              2 * (w * w - 1) / norm,
              (1 - damping * w + w * w) / norm);
    }
    return sections;
  }

  /** A high-pass of one pole. */
  static Biquad onePoleHighPass(double cutHz, double rateHz) {
    double w = StrictMath.tan(Math.PI * cutHz / rateHz);
    double norm = 1 + w;
    return new Biquad(1 / norm, -1 / norm, 0, (w - 1) / norm, 0);
  }

  /** One plus a share of a one-pole low-pass: lifts low frequencies. */
  static Biquad lowShelf(double cutHz, double share, double rateHz) {
    double w = StrictMath.tan(Math.PI * cutHz / rateHz);
    double norm = 1 + w;
    double a = (w - 1) / norm;
    double g = share * w / norm;
    return new Biquad(1 + g, a + g, 0, a, 0);
  }

  /** Filters in place, from rest. */
  void filter(double[] values) {
    double z1 = 0;
    double z2 = 0;
    for (int i = 0; i < values.length; i++) {
      double x = values[i];
      double y = b0 * x + z1;
      z1 = b1 * x - a1 * y + z2;
      z2 = b2 * x - a2 * y;
      values[i] = y;
    }
  }

  /** Filters in place, backwards in time, from rest. */
  void filterBackwards(double[] values) {
    double z1 = 0;
    double z2 = 0;
    for (int i = values.length - 1; i >= 0; i--) {
      double x = values[i];
      double y = b0 * x + z1;
      z1 = b1 * x - a1 * y + z2;
      z2 = b2 * x - a2 * y;
      values[i] = y;
    }
  }
}
