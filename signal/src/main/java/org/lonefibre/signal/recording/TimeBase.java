package org.lonefibre.signal.recording;

/**
 * The exact sampling rate of a channel, a rational number of samples per second; the only place
 * where samples become time.
 *
 * <ul>
 *   <li>Rates such as 48,828.125 Hz or 600.615 Hz are kept exact, so time never drifts.
 *   <li>Thread rule: immutable, free to share.
 * </ul>
 *
 * @param samples number of samples in {@code seconds} seconds, at least 1
 * @param seconds number of seconds, at least 1; the fraction is kept in lowest terms
 */
public record TimeBase(long samples, long seconds) {

  /** Reduces the fraction; refuses values below 1. */
  public TimeBase {
    if (samples < 1 || seconds < 1) {
      throw new IllegalArgumentException(
          "sampling rate must be a positive fraction, found " + samples + " / " + seconds);
    }
    long divisor = greatestCommonDivisor(samples, seconds);
    samples /= divisor;
    seconds /= divisor;
  }

  /** The rate of a whole number of samples per second. */
  public static TimeBase ofHz(long samplingRateHz) {
    return new TimeBase(samplingRateHz, 1);
  }

  /**
   * The closest exact rate to a decimal number, kept to a billionth of a hertz.
   *
   * @param samplingRateHz rate in Hz, 0.000001 to 1e9
   */
  public static TimeBase ofHz(double samplingRateHz) {
    if (!(samplingRateHz >= 1e-6 && samplingRateHz <= 1e9)) {
      throw new IllegalArgumentException(
          "sampling rate must be 0.000001 to 1e9 Hz, found " + samplingRateHz);
    }
    java.math.BigDecimal exact =
        java.math.BigDecimal.valueOf(samplingRateHz)
            .setScale(9, java.math.RoundingMode.HALF_EVEN)
            .stripTrailingZeros();
    int scale = Math.max(0, exact.scale());
    return new TimeBase(
        exact.movePointRight(scale).longValueExact(),
        java.math.BigDecimal.TEN.pow(scale).longValueExact());
  }

  /** Rate in Hz. */
  public double samplingRateHz() {
    return (double) samples / seconds;
  }

  /** Time of a sample position, in seconds; the position may lie between samples. */
  public double timeS(double positionSamples) {
    return positionSamples * seconds / samples;
  }

  /** A number of samples as microseconds. */
  public double durationUs(double lengthSamples) {
    return lengthSamples * seconds * 1e6 / samples;
  }

  /** A number of samples as milliseconds. */
  public double durationMs(double lengthSamples) {
    return lengthSamples * seconds * 1e3 / samples;
  }

  /** Position, in samples, of a time in seconds. */
  public double positionSamples(double timeS) {
    return timeS * samples / seconds;
  }

  /** Length, in samples, of a time in microseconds. */
  public double lengthSamples(double durationUs) {
    return durationUs * samples / (seconds * 1e6);
  }

  private static long greatestCommonDivisor(long a, long b) {
    return b == 0 ? a : greatestCommonDivisor(b, a % b);
  }
}
