package org.lonefibre.model.simulation;

/**
 * The amplifier and converter of a simulated recording.
 *
 * @param highPassHz cut-off of its one-pole causal high-pass; 0 for none, else 0.1 to 2,000 Hz
 * @param lowPassHz cut-off of its low-pass (fourth order; potentials pass it without delay, it
 *     halves them at the cut-off), 1,000 to 40,000 Hz; lowered to 0.42 of the sampling rate
 * @param noiseUv standard deviation of its noise as recorded, 0 to 1,000 uV
 * @param mainsUv amplitude of a 50 Hz hum, 0 to 10,000 uV
 * @param fullScaleUv highest value the 16-bit converter stores: a power of two, 256 to 65,536 uV,
 *     so that steps are exact
 */
public record AmplifierSettings(
    double highPassHz, double lowPassHz, double noiseUv, double mainsUv, int fullScaleUv) {

  /** Refuses what lies outside the stated ranges. */
  public AmplifierSettings {
    if (highPassHz != 0) {
      require("high-pass", highPassHz, 0.1, 2000, "Hz");
    }
    require("low-pass", lowPassHz, 1000, 40_000, "Hz");
    require("noise", noiseUv, 0, 1000, "uV");
    require("hum", mainsUv, 0, 10_000, "uV");
    require("full scale", fullScaleUv, 256, 65_536, "uV");
    if (Integer.bitCount(fullScaleUv) != 1) {
      throw new IllegalArgumentException(
          "full scale must be a power of two, 256 to 65,536 uV, found " + fullScaleUv);
    }
  }

  /** 10 Hz to 20 kHz, 8 uV of noise, 16,384 uV full scale: a wide band, engineering choices. */
  public static AmplifierSettings defaults() {
    return new AmplifierSettings(10, 20_000, 8, 0, 16_384);
  }

  /** Another noise. */
  public AmplifierSettings withNoiseUv(double newNoiseUv) {
    return new AmplifierSettings(highPassHz, lowPassHz, newNoiseUv, mainsUv, fullScaleUv);
  }

  /** Another band. */
  public AmplifierSettings withBandHz(double newHighPassHz, double newLowPassHz) {
    return new AmplifierSettings(newHighPassHz, newLowPassHz, noiseUv, mainsUv, fullScaleUv);
  }

  /** Another hum. */
  public AmplifierSettings withMainsUv(double newMainsUv) {
    return new AmplifierSettings(highPassHz, lowPassHz, noiseUv, newMainsUv, fullScaleUv);
  }

  /** Another full scale. */
  public AmplifierSettings withFullScaleUv(int newFullScaleUv) {
    return new AmplifierSettings(highPassHz, lowPassHz, noiseUv, mainsUv, newFullScaleUv);
  }

  /** Value of one step of the converter. */
  public double resolutionUv() {
    return fullScaleUv / 32_768.0;
  }

  private static void require(String what, double value, double low, double high, String unit) {
    if (!(value >= low && value <= high)) {
      throw new IllegalArgumentException(
          what + " must be " + low + " to " + high + " " + unit + ", found " + value);
    }
  }
}
