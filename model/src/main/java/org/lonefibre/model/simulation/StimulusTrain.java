package org.lonefibre.model.simulation;

import java.util.Arrays;
import org.lonefibre.signal.random.RandomStream;

/** Times of the stimuli, and the artefact each leaves. */
final class StimulusTrain {

  /** The artefact is followed for so many time constants. */
  private static final double ARTEFACT_LENGTH = 12;

  private final StimulationScenario scenario;

  StimulusTrain(StimulationScenario scenario) {
    this.scenario = scenario;
  }

  /** Times in seconds, rising; none after the last time allowed. */
  double[] timesS(double lastS, RandomStream stream) {
    double[] times = new double[scenario.count()];
    double even = scenario.startS();
    for (int i = 0; i < times.length; i++) {
      double shiftUs = scenario.clockDeviationUs() * stream.gaussianRatio();
      times[i] = even + shiftUs * 1e-6;
      if (times[i] > lastS) {
        return Arrays.copyOf(times, i);
      }
      double rate =
          2 * (i + 1) > times.length
              ? scenario.rateHz() * scenario.rateStepRatio()
              : scenario.rateHz();
      even += 1 / rate;
    }
    return times;
  }

  /** The artefact, a decaying exponential that starts at its reference. */
  static Template artefact(StimulationScenario scenario, double stepUs, double lowPassHz) {
    double decayUs = scenario.artefactDecayMs() * 1e3;
    double[] values = new double[(int) Math.ceil(ARTEFACT_LENGTH * decayUs / stepUs) + 1];
    for (int i = 0; i < values.length; i++) {
      values[i] = scenario.artefactUv() * StrictMath.exp(-i * stepUs / decayUs);
    }
    return Template.of(values, stepUs, 0, lowPassHz);
  }
}
