package org.lonefibre.model.simulation;

/**
 * What goes wrong under stimulation; all 0 by default but the axon's own jitter.
 *
 * @param nearThresholdShareRatio share of sites at which the middle third of the train is too weak
 *     for one axon, so that it fails at times and is late and unsteady, 0 to 1
 * @param directShareRatio share of sites at which the first axon's fibres are stimulated directly:
 *     no end-plate, no axon, hardly any jitter, 0 to 1
 * @param axonDeviationUs standard deviation of the axon's conduction time, 0 to 200 us (5 us at
 *     threshold: abstract on jitter of the stimulated motor axon)
 */
public record StimulusSettings(
    double nearThresholdShareRatio, double directShareRatio, double axonDeviationUs) {

  /** Refuses what lies outside the stated ranges. */
  public StimulusSettings {
    require("stimulus.nearThresholdShareRatio", nearThresholdShareRatio, 1);
    require("stimulus.directShareRatio", directShareRatio, 1);
    require("stimulus.axonDeviationUs", axonDeviationUs, 200);
  }

  /** Always strong enough, through the nerve, 5 us. */
  public static StimulusSettings defaults() {
    return new StimulusSettings(0, 0, 5);
  }

  private static void require(String what, double value, double high) {
    if (!(value >= 0 && value <= high)) {
      throw new IllegalArgumentException(what + " must be 0 to " + high + ", found " + value);
    }
  }
}
