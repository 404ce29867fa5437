package org.lonefibre.analysis.settings;

/**
 * How stimulated recordings are read.
 *
 * @param droppedStimuli the first stimuli of a train, left out (common practice, no source)
 * @param shortestLatencyMs responses earlier than this belong to the artefact (engineering choice)
 * @param longestLatencyMs responses later than this are not looked for (engineering choice)
 */
public record StimulationSettings(
    int droppedStimuli, double shortestLatencyMs, double longestLatencyMs) {

  /** Refuses values that cannot work. */
  public StimulationSettings {
    if (droppedStimuli < 0 || droppedStimuli > 1000) {
      throw new IllegalArgumentException(
          "droppedStimuli must be 0 to 1000, found " + droppedStimuli);
    }
    if (!(shortestLatencyMs >= 0 && shortestLatencyMs < longestLatencyMs)) {
      throw new IllegalArgumentException(
          "0 <= shortestLatencyMs < longestLatencyMs is required, found "
              + shortestLatencyMs
              + " and "
              + longestLatencyMs);
    }
  }

  /** The values as shipped. */
  public static StimulationSettings defaults() {
    return new StimulationSettings(2, 1.2, 40);
  }

  /** The same with another number of dropped stimuli. */
  public StimulationSettings withDroppedStimuli(int value) {
    return new StimulationSettings(value, shortestLatencyMs, longestLatencyMs);
  }

  /** The same with other latencies. */
  public StimulationSettings withLatenciesMs(double shortestMs, double longestMs) {
    return new StimulationSettings(droppedStimuli, shortestMs, longestMs);
  }
}
