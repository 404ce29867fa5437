package org.lonefibre.analysis.conditioning;

/**
 * How a recording is conditioned before anything is measured.
 *
 * @param highPassHz corner of the high-pass, 1 to 10,000. Single-fibre 500 Hz: Norwegian guideline;
 *     Juel 2019. Concentric 1,000 Hz: Norwegian guideline; Sanders, international workshop 6-3
 *     (some limit sets 2,000 Hz)
 * @param lowPassHz corner of the low-pass, above the high-pass, at most 1,000,000; 0.45 of the
 *     sampling rate if that is lower (engineering choice). 10 kHz: same sources
 * @param timingHighPassHz corner of the high-pass, order 1 each way, of the signal in which
 *     potentials are found and placed; the other high-pass if that is higher. 1,500 Hz: engineering
 *     choice, by the errors of simulated sites
 * @param order order of each filter, each way, 1 to 8. 2: engineering choice
 * @param mainsRemoval off: engineering choice, a notch rings
 * @param highNoiseUv noise above which it is a finding, above 0. A fifth of the smallest amplitude
 *     the trade accepts, 200 uV (single-fibre) and 50 uV (concentric; Sanders, international
 *     workshop 6-3), so that a potential that just passes has a signal-to-noise ratio of 5:
 *     engineering choice
 * @param shortestS duration below which a recording is called short, 0 or more. 5 s, 50 differences
 *     at 10 discharges a second: engineering choice
 */
public record ConditioningSettings(
    double highPassHz,
    double lowPassHz,
    double timingHighPassHz,
    int order,
    MainsRemoval mainsRemoval,
    double highNoiseUv,
    double shortestS) {

  /** Refuses values outside their ranges. */
  public ConditioningSettings {
    if (!(highPassHz >= 1 && highPassHz <= 10_000)) {
      throw new IllegalArgumentException("high-pass must be 1 to 10000 Hz, found " + highPassHz);
    }
    if (!(lowPassHz > highPassHz && lowPassHz <= 1_000_000)) {
      throw new IllegalArgumentException(
          "low-pass must lie above the high-pass of "
              + highPassHz
              + " Hz and not above 1000000 Hz, found "
              + lowPassHz);
    }
    if (!(timingHighPassHz >= 1 && timingHighPassHz <= 10_000)) {
      throw new IllegalArgumentException(
          "high-pass for timing must be 1 to 10000 Hz, found " + timingHighPassHz);
    }
    if (order < 1 || order > 8) {
      throw new IllegalArgumentException("order of the filters must be 1 to 8, found " + order);
    }
    if (!(highNoiseUv > 0)) {
      throw new IllegalArgumentException("high noise must be above 0 uV, found " + highNoiseUv);
    }
    if (!(shortestS >= 0)) {
      throw new IllegalArgumentException("shortest must be 0 s or more, found " + shortestS);
    }
  }

  /** Those for a concentric needle, which serve when the needle is not known. */
  public static ConditioningSettings defaults() {
    return concentric();
  }

  /** For a single-fibre needle. */
  public static ConditioningSettings singleFibre() {
    return new ConditioningSettings(500, 10_000, 1_500, 2, MainsRemoval.OFF, 40, 5);
  }

  /** For a concentric needle. */
  public static ConditioningSettings concentric() {
    return new ConditioningSettings(1_000, 10_000, 1_500, 2, MainsRemoval.OFF, 10, 5);
  }

  /** With another high-pass. */
  public ConditioningSettings withHighPassHz(double value) {
    return new ConditioningSettings(
        value, lowPassHz, timingHighPassHz, order, mainsRemoval, highNoiseUv, shortestS);
  }

  /** With another low-pass. */
  public ConditioningSettings withLowPassHz(double value) {
    return new ConditioningSettings(
        highPassHz, value, timingHighPassHz, order, mainsRemoval, highNoiseUv, shortestS);
  }

  /** With another high-pass for timing. */
  public ConditioningSettings withTimingHighPassHz(double value) {
    return new ConditioningSettings(
        highPassHz, lowPassHz, value, order, mainsRemoval, highNoiseUv, shortestS);
  }

  /** With another order. */
  public ConditioningSettings withOrder(int value) {
    return new ConditioningSettings(
        highPassHz, lowPassHz, timingHighPassHz, value, mainsRemoval, highNoiseUv, shortestS);
  }

  /** With the mains taken out, or not. */
  public ConditioningSettings withMainsRemoval(MainsRemoval value) {
    return new ConditioningSettings(
        highPassHz, lowPassHz, timingHighPassHz, order, value, highNoiseUv, shortestS);
  }

  /** With another limit for high noise. */
  public ConditioningSettings withHighNoiseUv(double value) {
    return new ConditioningSettings(
        highPassHz, lowPassHz, timingHighPassHz, order, mainsRemoval, value, shortestS);
  }

  /** With another shortest duration. */
  public ConditioningSettings withShortestS(double value) {
    return new ConditioningSettings(
        highPassHz, lowPassHz, timingHighPassHz, order, mainsRemoval, highNoiseUv, value);
  }
}
