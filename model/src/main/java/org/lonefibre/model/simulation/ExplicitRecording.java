package org.lonefibre.model.simulation;

import java.util.List;
import org.lonefibre.signal.random.RandomStream;

/**
 * A recording put together from given potentials at given times, for tests: no fibres, no units.
 *
 * <ul>
 *   <li>Potentials pass the amplifier's low-pass without delay and are placed between samples.
 *   <li>Thread rule: one thread, one recording.
 * </ul>
 */
public final class ExplicitRecording {

  private final double samplingRateHz;
  private final AmplifierSettings amplifier;
  private final Canvas canvas;

  /**
   * @param samplingRateHz rate of the recording
   * @param durationS its duration
   * @param amplifier amplifier and converter, with the noise
   */
  public ExplicitRecording(double samplingRateHz, double durationS, AmplifierSettings amplifier) {
    this.samplingRateHz = samplingRateHz;
    this.amplifier = amplifier;
    this.canvas = new Canvas(samplingRateHz, durationS, amplifier, 0);
  }

  /**
   * Adds a potential at each of some times.
   *
   * @param valuesUv the potential on a fine grid; copied
   * @param stepUs time between its values, 0.1 to 20 us
   * @param referenceUs the point of it, from its first value, that lies at each time
   * @param timesS the times since the first sample
   * @return this
   */
  public ExplicitRecording place(
      double[] valuesUv, double stepUs, double referenceUs, double[] timesS) {
    if (!(stepUs >= 0.1 && stepUs <= 20)) {
      throw new IllegalArgumentException("time step must be 0.1 to 20 us, found " + stepUs);
    }
    Template template = Template.of(valuesUv, stepUs, referenceUs, canvas.lowPassHz());
    for (double timeS : timesS) {
      canvas.add(template, timeS);
    }
    return this;
  }

  /** Adds noise from a seed and closes the recording; its truth has no units. */
  public SimulatedRecording finish(long seed) {
    return canvas.finish(
        new double[0],
        StimulusMarker.NONE,
        RandomStream.of(seed),
        new RecordingTruth("explicit.edf", samplingRateHz, amplifier.noiseUv(), List.of(), null));
  }
}
