package org.lonefibre.model.fibre;

/**
 * What stands after the needle.
 *
 * @param cable cable and amplifier input
 * @param highPassHz cut-off of a causal one-pole high-pass, up to 5,000 Hz; 0 for none
 */
public record Pickup(Cable cable, double highPassHz) {

  /** Refuses an impossible filter. */
  public Pickup {
    if (!(highPassHz >= 0 && highPassHz <= 5000)) {
      throw new IllegalArgumentException("high-pass must be 0 to 5000 Hz, found " + highPassHz);
    }
  }

  /** Nothing at all. */
  public static Pickup raw() {
    return new Pickup(Cable.none(), 0);
  }

  /** No cable, but a filter. */
  public static Pickup filtered(double highPassHz) {
    return new Pickup(Cable.none(), highPassHz);
  }

  boolean isRaw() {
    return highPassHz == 0 && cable.capacitanceFarad() == 0 && cable.inputOhm() >= 1e15;
  }

  /**
   * Power that comes out over power that goes in, at a frequency and an impedance of the needle.
   */
  public double powerRatio(double frequencyHz, double[] impedanceOhm) {
    double[] transfer = transfer(frequencyHz, impedanceOhm);
    return transfer[0] * transfer[0] + transfer[1] * transfer[1];
  }

  /** Output over input at a frequency and an impedance of the needle, real and imaginary part. */
  double[] transfer(double frequencyHz, double[] impedanceOhm) {
    double omega = 2 * Math.PI * frequencyHz * cable.capacitanceFarad();
    double real = 1 + impedanceOhm[0] / cable.inputOhm() - omega * impedanceOhm[1];
    double imaginary = impedanceOhm[1] / cable.inputOhm() + omega * impedanceOhm[0];
    double squared = real * real + imaginary * imaginary;
    double a = real / squared;
    double b = -imaginary / squared;
    if (highPassHz == 0) {
      return new double[] {a, b};
    }
    double u = frequencyHz / highPassHz;
    double c = u * u / (1 + u * u);
    double d = u / (1 + u * u);
    return new double[] {a * c - b * d, a * d + b * c};
  }
}
