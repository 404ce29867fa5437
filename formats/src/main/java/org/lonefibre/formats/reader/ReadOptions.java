package org.lonefibre.formats.reader;

import org.jspecify.annotations.Nullable;

/**
 * What the user says of a file that the file does not say itself.
 *
 * @param samplingRateHz rate of a file that tells none, such as text without a time column, or only
 *     a whole number of it; null if not given
 * @param gainUvPerUnit microvolts in one unit of the samples; null if not given
 */
public record ReadOptions(@Nullable Double samplingRateHz, @Nullable Double gainUvPerUnit) {

  /** Refuses values that are not positive. */
  public ReadOptions {
    if (samplingRateHz != null && !(samplingRateHz >= 1e-6 && samplingRateHz <= 1e9)) {
      throw new IllegalArgumentException(
          "samplingRateHz must be 0.000001 to 1e9 Hz, found " + samplingRateHz);
    }
    if (gainUvPerUnit != null && (gainUvPerUnit == 0 || !Double.isFinite(gainUvPerUnit))) {
      throw new IllegalArgumentException(
          "gainUvPerUnit must be a number other than 0, found " + gainUvPerUnit);
    }
  }

  /** Nothing is said. */
  public static ReadOptions defaults() {
    return new ReadOptions(null, null);
  }

  /** The same with a sampling rate. */
  public ReadOptions withSamplingRateHz(double value) {
    return new ReadOptions(value, gainUvPerUnit);
  }

  /** The same with a gain. */
  public ReadOptions withGainUvPerUnit(double value) {
    return new ReadOptions(samplingRateHz, value);
  }
}
