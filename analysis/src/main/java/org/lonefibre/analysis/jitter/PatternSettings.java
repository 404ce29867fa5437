package org.lonefibre.analysis.jitter;

/**
 * What the patterns of a unit or of a stimulated recording rest on.
 *
 * @param triggerJitterUs least own jitter of a trigger that is called the culprit; default 25 us,
 *     engineering choice (published limits of stimulated single end-plates are 28 to 40 us)
 * @param chanceProbability chance at which a coincidence is called a pattern; default 0.001,
 *     engineering choice
 * @param jointBlocks least number of sweeps in which potentials vanish together; default 3,
 *     engineering choice
 * @param jointBlockRatio least share of joint blocks among the sweeps in which either is blocked;
 *     default 0.5, engineering choice
 * @param commonLatencyUs least jitter of the common part of the latency worth a finding, asked of
 *     the lower end of its 95 % interval; default 5 us, engineering choice
 * @param rateToleranceRatio an inter-stimulus interval this far from the median is a change of
 *     rate; default 0.1, engineering choice
 * @param ratePercent share of such intervals above which the rate is irregular; default 2 %,
 *     engineering choice
 */
public record PatternSettings(
    double triggerJitterUs,
    double chanceProbability,
    int jointBlocks,
    double jointBlockRatio,
    double commonLatencyUs,
    double rateToleranceRatio,
    double ratePercent) {

  /** Refuses values without sense. */
  public PatternSettings {
    if (!(chanceProbability > 0 && chanceProbability < 0.5)) {
      throw new IllegalArgumentException(
          "chanceProbability must lie between 0 and 0.5, found " + chanceProbability);
    }
    if (jointBlocks < 1) {
      throw new IllegalArgumentException(
          "jointBlocks must be 1 sweep or more, found " + jointBlocks);
    }
    if (!(triggerJitterUs >= 0 && commonLatencyUs >= 0)) {
      throw new IllegalArgumentException(
          "triggerJitterUs and commonLatencyUs must be 0 us or more, found "
              + triggerJitterUs
              + " and "
              + commonLatencyUs);
    }
  }

  /** The values in use unless told otherwise. */
  public static PatternSettings defaults() {
    return new PatternSettings(25, 0.001, 3, 0.5, 5, 0.1, 2);
  }

  /** The same with another least jitter of a trigger called the culprit, in us. */
  public PatternSettings withTriggerJitterUs(double us) {
    return new PatternSettings(
        us,
        chanceProbability,
        jointBlocks,
        jointBlockRatio,
        commonLatencyUs,
        rateToleranceRatio,
        ratePercent);
  }
}
