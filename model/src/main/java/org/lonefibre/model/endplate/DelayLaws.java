package org.lonefibre.model.endplate;

import org.jspecify.annotations.Nullable;
import org.lonefibre.signal.random.RandomStream;

/** Deviation and characteristic function of one end-plate's law, and draws from it. */
final class DelayLaws {

  private static final double GAMMA_SHAPE = 2.5;

  private final EndPlateSettings settings;
  private final @Nullable ThresholdLaw threshold;

  DelayLaws(EndPlateSettings settings) {
    this.settings = settings;
    this.threshold =
        settings.law() == DelayLaw.THRESHOLD
            ? new ThresholdLaw(settings.safetyFactorRatio())
            : null;
  }

  EndPlateSettings settings() {
    return settings;
  }

  /** Quantal content of a discharge; 1 where the law does not ask for it. */
  double drawContent(RandomStream stream) {
    return threshold == null ? 1 : ThresholdLaw.drawContent(stream);
  }

  boolean reachesThreshold(double content) {
    return threshold == null || threshold.reachesThreshold(content);
  }

  /** A delay relative to the law's mean. */
  double drawUs(RandomStream stream, double content) {
    if (threshold != null) {
      return threshold.delayUs(content) - threshold.meanUs();
    }
    return switch (settings.law()) {
      case GAUSSIAN -> settings.standardDeviationUs() * stream.gaussianRatio();
      case GAMMA ->
          settings.standardDeviationUs()
              * (stream.gammaRatio(GAMMA_SHAPE) - GAMMA_SHAPE)
              / Math.sqrt(GAMMA_SHAPE);
      case CONSTANT, THRESHOLD -> 0;
    };
  }

  /** Characteristic function of the difference between two neighbouring delays. */
  double differenceRatio(double perUs) {
    double scaled = settings.standardDeviationUs() * perUs;
    double base =
        threshold != null
            ? threshold.squaredModulusRatio(perUs)
            : switch (settings.law()) {
              case GAUSSIAN -> StrictMath.exp(-scaled * scaled);
              case GAMMA -> StrictMath.pow(1 + scaled * scaled / GAMMA_SHAPE, -GAMMA_SHAPE);
              case CONSTANT, THRESHOLD -> 1;
            };
    double flip = settings.flipProbability();
    return settings.flipFlopUs() == 0
        ? base
        : base * (1 - flip + flip * StrictMath.cos(perUs * settings.flipFlopUs()));
  }

  /** Standard deviation of the delay without its two states. */
  double deviationUs() {
    if (threshold != null) {
      return Math.sqrt(threshold.varianceUs2());
    }
    return settings.law() == DelayLaw.CONSTANT ? 0 : settings.standardDeviationUs();
  }

  /** Probability of a block, of either kind. */
  double blockingProbability() {
    double surviving = threshold == null ? 1 : threshold.survivingProbability();
    return 1 - surviving * (1 - settings.blockingProbability());
  }
}
