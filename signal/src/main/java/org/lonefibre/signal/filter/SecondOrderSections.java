package org.lonefibre.signal.filter;

import java.util.Arrays;

/**
 * A recursive filter as a cascade of second-order sections.
 *
 * <p>Each section answers H(z) = (b0 + b1/z + b2/z^2) / (1 + a1/z + a2/z^2). The order of the
 * sections is that of their making.
 *
 * <ul>
 *   <li>Butterworth filters by bilinear transformation with the corner prewarped: 3.01 dB are lost
 *       at the corner, per pass.
 *   <li>Thread rule: immutable, free to share.
 * </ul>
 */
public final class SecondOrderSections {

  /** Coefficients of one section: b0 b1 b2 a1 a2. */
  static final int WIDTH = 5;

  private static final int HIGHEST_ORDER = 12;

  private final double[] rows;

  private SecondOrderSections(double[] rows) {
    this.rows = rows;
  }

  /**
   * Butterworth high-pass.
   *
   * @param order 1 to 12
   * @param cornerHz corner, above 0 and below half the rate
   * @param samplingRateHz rate of the signal
   * @throws IllegalArgumentException outside these ranges
   */
  public static SecondOrderSections highPass(int order, double cornerHz, double samplingRateHz) {
    check(order, cornerHz, samplingRateHz);
    return new SecondOrderSections(ButterworthDesign.highPass(order, cornerHz, samplingRateHz));
  }

  /**
   * Butterworth low-pass.
   *
   * @param order 1 to 12
   * @param cornerHz corner, above 0 and below half the rate
   * @param samplingRateHz rate of the signal
   * @throws IllegalArgumentException outside these ranges
   */
  public static SecondOrderSections lowPass(int order, double cornerHz, double samplingRateHz) {
    check(order, cornerHz, samplingRateHz);
    return new SecondOrderSections(ButterworthDesign.lowPass(order, cornerHz, samplingRateHz));
  }

  /**
   * Takes one frequency out: the bilinear notch of one section (Orfanidis, Introduction to Signal
   * Processing, 1996, section 11.3), as SciPy's {@code iirnotch}.
   *
   * @param centreHz frequency removed, above 0 and below half the rate
   * @param widthHz width between the points where 3.01 dB are lost, per pass
   * @param samplingRateHz rate of the signal
   * @throws IllegalArgumentException outside these ranges
   */
  public static SecondOrderSections notch(double centreHz, double widthHz, double samplingRateHz) {
    check(1, centreHz, samplingRateHz);
    if (!(widthHz > 0 && widthHz < samplingRateHz / 2)) {
      throw new IllegalArgumentException(
          "width of a notch must lie above 0 and below half the rate, found " + widthHz + " Hz");
    }
    double beta = Math.tan(Math.PI * widthHz / samplingRateHz);
    double gain = 1 / (1 + beta);
    double cosine = Math.cos(2 * Math.PI * centreHz / samplingRateHz);
    return new SecondOrderSections(
        new double[] {gain, -2 * gain * cosine, gain, -2 * gain * cosine, 2 * gain - 1});
  }

  /** This filter, then another. */
  public SecondOrderSections then(SecondOrderSections next) {
    double[] both = Arrays.copyOf(rows, rows.length + next.rows.length);
    System.arraycopy(next.rows, 0, both, rows.length, next.rows.length);
    return new SecondOrderSections(both);
  }

  /** Number of sections. */
  public int sectionCount() {
    return rows.length / WIDTH;
  }

  /** A copy of the coefficients of one section, from 0: b0 b1 b2 a1 a2. */
  public double[] section(int index) {
    return Arrays.copyOfRange(rows, WIDTH * index, WIDTH * index + WIDTH);
  }

  /** What is left of the amplitude of a sine after one pass. */
  public double gainRatio(double frequencyHz, double samplingRateHz) {
    double w = 2 * Math.PI * frequencyHz / samplingRateHz;
    double c1 = Math.cos(w);
    double s1 = Math.sin(w);
    double c2 = Math.cos(2 * w);
    double s2 = Math.sin(2 * w);
    double gain = 1;
    for (int r = 0; r < rows.length; r += WIDTH) {
      double above =
          Math.hypot(
              rows[r] + rows[r + 1] * c1 + rows[r + 2] * c2, rows[r + 1] * s1 + rows[r + 2] * s2);
      double below =
          Math.hypot(1 + rows[r + 3] * c1 + rows[r + 4] * c2, rows[r + 3] * s1 + rows[r + 4] * s2);
      gain *= above / below;
    }
    return gain;
  }

  /**
   * Samples after which what came before is forgotten down to a given part.
   *
   * <p>From the largest pole radius r: log(remainder) / log(r), a quarter more and 32 samples for
   * the poles beside it.
   *
   * @param remainder part that may be left, above 0 and below 1
   */
  public int settlingLength(double remainder) {
    if (!(remainder > 0 && remainder < 1)) {
      throw new IllegalArgumentException(
          "remainder must lie above 0 and below 1, found " + remainder);
    }
    double radius = 0;
    for (int r = 0; r < rows.length; r += WIDTH) {
      double a1 = rows[r + 3];
      double a2 = rows[r + 4];
      double discriminant = a1 * a1 / 4 - a2;
      double largest =
          discriminant < 0 ? Math.sqrt(a2) : Math.abs(a1) / 2 + Math.sqrt(discriminant);
      radius = Math.max(radius, largest);
    }
    double length = radius < 1e-6 ? 0 : Math.log(remainder) / Math.log(radius);
    return (int) Math.min(Integer.MAX_VALUE / 4, Math.ceil(1.25 * length) + 32);
  }

  /**
   * Samples by which each end is extended: 3 (2 n + 1 - m), n the number of sections and m the
   * smaller of the numbers of sections without b2 and without a2 (as SciPy 1.17 {@code
   * sosfiltfilt}).
   */
  int extensionLength() {
    int withoutB2 = 0;
    int withoutA2 = 0;
    for (int r = 0; r < rows.length; r += WIDTH) {
      withoutB2 += rows[r + 2] == 0 ? 1 : 0;
      withoutA2 += rows[r + 4] == 0 ? 1 : 0;
    }
    return 3 * (2 * sectionCount() + 1 - Math.min(withoutB2, withoutA2));
  }

  /** The coefficients themselves, for the run. */
  double[] rows() {
    return rows;
  }

  private static void check(int order, double cornerHz, double samplingRateHz) {
    if (order < 1 || order > HIGHEST_ORDER) {
      throw new IllegalArgumentException(
          "order must be 1 to " + HIGHEST_ORDER + ", found " + order);
    }
    if (!(samplingRateHz > 0 && samplingRateHz < Double.POSITIVE_INFINITY)) {
      throw new IllegalArgumentException(
          "sampling rate must be above 0 Hz, found " + samplingRateHz + " Hz");
    }
    if (!(cornerHz > 0 && cornerHz < samplingRateHz / 2)) {
      throw new IllegalArgumentException(
          "corner must lie above 0 and below half the rate of "
              + samplingRateHz
              + " Hz, found "
              + cornerHz
              + " Hz");
    }
  }
}
