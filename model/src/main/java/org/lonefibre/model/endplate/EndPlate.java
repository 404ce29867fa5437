package org.lonefibre.model.endplate;

import org.lonefibre.signal.random.RandomStream;

/**
 * Draws what an end-plate does at each discharge of a train.
 *
 * <ul>
 *   <li>Delays, blocks and states are drawn from separate streams: changing the blocking
 *       probability changes no delay.
 *   <li>Thread rule: immutable.
 * </ul>
 */
public final class EndPlate {

  private final DelayLaws laws;

  /** An end-plate that follows the given law. */
  public EndPlate(EndPlateSettings settings) {
    this.laws = new DelayLaws(settings);
  }

  /** Probability that a discharge is blocked. */
  public double blockingProbability() {
    return laws.blockingProbability();
  }

  /**
   * Draws a train.
   *
   * @param dischargeTimesS times of the discharges, rising
   * @param stream where chance comes from
   */
  public Transmissions transmit(double[] dischargeTimesS, RandomStream stream) {
    EndPlateSettings settings = laws.settings();
    int count = dischargeTimesS.length;
    boolean[] present = new boolean[count];
    double[] delays = new double[count];
    RandomStream delayStream = stream.child("delay");
    RandomStream blockStream = stream.child("block");
    RandomStream stateStream = stream.child("state");
    double meanIntervalMs = meanIntervalMs(dischargeTimesS);
    boolean late = stateStream.happens(0.5);
    for (int i = 0; i < count; i++) {
      double content = laws.drawContent(delayStream);
      boolean released = !blockStream.happens(settings.blockingProbability());
      present[i] = released && laws.reachesThreshold(content);
      if (i > 0 && stateStream.happens(settings.flipProbability())) {
        late = !late;
      }
      double intervalMs =
          i == 0 ? meanIntervalMs : (dischargeTimesS[i] - dischargeTimesS[i - 1]) * 1e3;
      delays[i] =
          laws.drawUs(delayStream, content)
              + (late ? 0.5 : -0.5) * settings.flipFlopUs()
              + settings.trendPerDischargeUs() * (i - 0.5 * (count - 1))
              + settings.recoveryPerMsUs() * (intervalMs - meanIntervalMs);
    }
    return new Transmissions(present, delays);
  }

  private static double meanIntervalMs(double[] timesS) {
    int count = timesS.length;
    return count < 2 ? 0 : (timesS[count - 1] - timesS[0]) * 1e3 / (count - 1);
  }
}
