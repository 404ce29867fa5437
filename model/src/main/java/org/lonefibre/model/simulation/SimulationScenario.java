package org.lonefibre.model.simulation;

import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.lonefibre.model.motorunit.FibreScenario;
import org.lonefibre.model.motorunit.MotorUnitScenario;
import org.lonefibre.model.tissue.Tissue;

/**
 * One recording to be simulated.
 *
 * @param site name of the site; the file is called after it
 * @param samplingRateHz 1,000 to 1,000,000 Hz, any decimal number
 * @param durationS 0.1 to 3,600 s; samples are held in memory, 4 bytes each
 * @param tissue the medium
 * @param shapes the family of shapes
 * @param amplifier amplifier and converter
 * @param background units far away
 * @param units units near the electrode
 * @param stimulation null if the muscle is active of its own
 * @param distant units of which only the fibres that are not named are heard
 * @param namedFromUv amplitude from which a fibre is named in the truth, 0 to 1,000 uV; 0 names all
 * @param movement of the needle
 */
public record SimulationScenario(
    String site,
    double samplingRateHz,
    double durationS,
    Tissue tissue,
    ShapeFamily shapes,
    AmplifierSettings amplifier,
    BackgroundSettings background,
    List<MotorUnitScenario> units,
    @Nullable StimulationScenario stimulation,
    List<MotorUnitScenario> distant,
    double namedFromUv,
    MovementSettings movement) {

  /** Refuses what lies outside the stated ranges and doubled names. */
  public SimulationScenario {
    if (!(samplingRateHz >= 1000 && samplingRateHz <= 1e6)) {
      throw new IllegalArgumentException(
          "sampling rate must be 1,000 to 1,000,000 Hz, found " + samplingRateHz);
    }
    if (!(durationS >= 0.1 && durationS <= 3600)) {
      throw new IllegalArgumentException("duration must be 0.1 to 3,600 s, found " + durationS);
    }
    if (!(namedFromUv >= 0 && namedFromUv <= 1000)) {
      throw new IllegalArgumentException(
          "amplitude from which fibres are named must be 0 to 1,000 uV, found " + namedFromUv);
    }
    units = List.copyOf(units);
    distant = List.copyOf(distant);
    Set<String> names = new HashSet<>();
    for (MotorUnitScenario unit : units) {
      if (!names.add("unit " + unit.id())) {
        throw new IllegalArgumentException("two motor units are named " + unit.id());
      }
      for (FibreScenario fibre : unit.fibres()) {
        if (!names.add("fibre " + fibre.id())) {
          throw new IllegalArgumentException("two fibres are named " + fibre.id());
        }
      }
    }
  }

  /** Nothing but noise and background, 8 s at 50 kHz. */
  public static SimulationScenario defaults() {
    return new SimulationScenario(
        "site01",
        50_000,
        8,
        Tissue.defaults(),
        ShapeFamily.CUBIC_POINT,
        AmplifierSettings.defaults(),
        BackgroundSettings.defaults(),
        List.of(),
        null,
        List.of(),
        0,
        MovementSettings.none());
  }

  /** Another name. */
  public SimulationScenario withSite(String newSite) {
    return new SimulationScenario(
        newSite,
        samplingRateHz,
        durationS,
        tissue,
        shapes,
        amplifier,
        background,
        units,
        stimulation,
        distant,
        namedFromUv,
        movement);
  }

  /** Another sampling rate. */
  public SimulationScenario withSamplingRateHz(double newSamplingRateHz) {
    return new SimulationScenario(
        site,
        newSamplingRateHz,
        durationS,
        tissue,
        shapes,
        amplifier,
        background,
        units,
        stimulation,
        distant,
        namedFromUv,
        movement);
  }

  /** Another duration. */
  public SimulationScenario withDurationS(double newDurationS) {
    return new SimulationScenario(
        site,
        samplingRateHz,
        newDurationS,
        tissue,
        shapes,
        amplifier,
        background,
        units,
        stimulation,
        distant,
        namedFromUv,
        movement);
  }

  /** Another family of shapes. */
  public SimulationScenario withShapes(ShapeFamily newShapes) {
    return new SimulationScenario(
        site,
        samplingRateHz,
        durationS,
        tissue,
        newShapes,
        amplifier,
        background,
        units,
        stimulation,
        distant,
        namedFromUv,
        movement);
  }

  /** Another amplifier. */
  public SimulationScenario withAmplifier(AmplifierSettings newAmplifier) {
    return new SimulationScenario(
        site,
        samplingRateHz,
        durationS,
        tissue,
        shapes,
        newAmplifier,
        background,
        units,
        stimulation,
        distant,
        namedFromUv,
        movement);
  }

  /** Another background. */
  public SimulationScenario withBackground(BackgroundSettings newBackground) {
    return new SimulationScenario(
        site,
        samplingRateHz,
        durationS,
        tissue,
        shapes,
        amplifier,
        newBackground,
        units,
        stimulation,
        distant,
        namedFromUv,
        movement);
  }

  /** Other units. */
  public SimulationScenario withUnits(List<MotorUnitScenario> newUnits) {
    return new SimulationScenario(
        site,
        samplingRateHz,
        durationS,
        tissue,
        shapes,
        amplifier,
        background,
        newUnits,
        stimulation,
        distant,
        namedFromUv,
        movement);
  }

  /** With stimuli. */
  public SimulationScenario withStimulation(StimulationScenario newStimulation) {
    return new SimulationScenario(
        site,
        samplingRateHz,
        durationS,
        tissue,
        shapes,
        amplifier,
        background,
        units,
        newStimulation,
        distant,
        namedFromUv,
        movement);
  }

  /** Other distant units, and from where on fibres are named. */
  public SimulationScenario withDistant(List<MotorUnitScenario> newDistant, double newNamedFromUv) {
    return new SimulationScenario(
        site,
        samplingRateHz,
        durationS,
        tissue,
        shapes,
        amplifier,
        background,
        units,
        stimulation,
        newDistant,
        newNamedFromUv,
        movement);
  }

  /** Another movement. */
  public SimulationScenario withMovement(MovementSettings newMovement) {
    return new SimulationScenario(
        site,
        samplingRateHz,
        durationS,
        tissue,
        shapes,
        amplifier,
        background,
        units,
        stimulation,
        distant,
        namedFromUv,
        newMovement);
  }
}
