package org.lonefibre.formats.reader;

import org.jspecify.annotations.Nullable;

/**
 * What the user says of a file that the file does not say itself.
 *
 * @param samplingRateHz rate of a file that tells none, such as text without a time column, or only
 *     a whole number of it; null if not given
 * @param gainUvPerUnit microvolts in one unit of the samples; null if not given
 * @param variable which of the arrays of a file is the signal; null if not given
 * @param raw layout of a file of bare numbers; null for every other file
 * @param rows what a row of text is
 */
public record ReadOptions(
    @Nullable Double samplingRateHz,
    @Nullable Double gainUvPerUnit,
    @Nullable String variable,
    @Nullable RawLayout raw,
    Rows rows) {

  /** What a row of text is. */
  public enum Rows {
    /** One sample of each channel. */
    SAMPLES,
    /** The time of its cut in seconds, then the samples of one sweep. */
    SWEEPS
  }

  /** Refuses values that are not positive. */
  public ReadOptions {
    if (samplingRateHz != null && !(samplingRateHz >= 1e-6 && samplingRateHz <= 1e9)) {
      throw new IllegalArgumentException(
          "samplingRateHz must be 0.000001 to 1e9 Hz, found " + samplingRateHz);
    }
    double gain = gainUvPerUnit == null ? 1 : Math.abs(gainUvPerUnit);
    if (!(gain >= 1e-15 && gain <= 1e15)) {
      throw new IllegalArgumentException(
          "gainUvPerUnit must be 1e-15 to 1e15 or the negative of that, found " + gainUvPerUnit);
    }
  }

  /** Only a rate and a gain. */
  public ReadOptions(@Nullable Double samplingRateHz, @Nullable Double gainUvPerUnit) {
    this(samplingRateHz, gainUvPerUnit, null, null, Rows.SAMPLES);
  }

  /** Nothing is said. */
  public static ReadOptions defaults() {
    return new ReadOptions(null, null);
  }

  /** The same with a sampling rate. */
  public ReadOptions withSamplingRateHz(double value) {
    return new ReadOptions(value, gainUvPerUnit, variable, raw, rows);
  }

  /** The same with a gain. */
  public ReadOptions withGainUvPerUnit(double value) {
    return new ReadOptions(samplingRateHz, value, variable, raw, rows);
  }

  /** The same with the name of the signal. */
  public ReadOptions withVariable(String value) {
    return new ReadOptions(samplingRateHz, gainUvPerUnit, value, raw, rows);
  }

  /** The same with a layout of bare numbers. */
  public ReadOptions withRaw(RawLayout value) {
    return new ReadOptions(samplingRateHz, gainUvPerUnit, variable, value, rows);
  }

  /** The same with another meaning of rows. */
  public ReadOptions withRows(Rows value) {
    return new ReadOptions(samplingRateHz, gainUvPerUnit, variable, raw, value);
  }
}
