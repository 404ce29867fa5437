package org.lonefibre.model.simulation;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What truly happened in one recording. Component names are those of the document.
 *
 * @param file name of the recording's file
 * @param samplingRateHz its rate
 * @param noiseUv standard deviation of the amplifier's noise as recorded; distant fibres come on
 *     top
 * @param motorUnits units near the electrode; under stimulation, one an axon
 * @param stimulation null if the muscle was active of its own
 */
public record RecordingTruth(
    String file,
    double samplingRateHz,
    double noiseUv,
    List<MotorUnitTruth> motorUnits,
    @Nullable StimulationTruth stimulation) {

  /** Copies the list. */
  public RecordingTruth {
    motorUnits = List.copyOf(motorUnits);
  }

  /**
   * A motor unit.
   *
   * @param id its name
   * @param dischargeTimesS its discharges; under stimulation all stimuli
   * @param fibres its fibres
   * @param pairs the fibre of the largest amplitude with each other; none under stimulation
   */
  public record MotorUnitTruth(
      String id, List<Double> dischargeTimesS, List<FibreTruth> fibres, List<PairTruth> pairs) {

    /** Copies the lists. */
    public MotorUnitTruth {
      dischargeTimesS = List.copyOf(dischargeTimesS);
      fibres = List.copyOf(fibres);
      pairs = List.copyOf(pairs);
    }
  }

  /**
   * A fibre.
   *
   * @param id its name
   * @param distanceMm from the electrode across the fibres
   * @param diameterUm its diameter
   * @param velocityMPerS its conduction velocity
   * @param amplitudeUv maximum minus minimum of its potential before the amplifier
   * @param arrivalTimesS one a discharge: time of the steepest point as recorded; null if the fibre
   *     did not fire
   * @param endPlateJitterUs mean absolute difference of neighbouring delays that its end-plate's
   *     law gives
   */
  public record FibreTruth(
      String id,
      double distanceMm,
      double diameterUm,
      double velocityMPerS,
      double amplitudeUv,
      List<@Nullable Double> arrivalTimesS,
      double endPlateJitterUs) {

    /** Copies the list. */
    public FibreTruth {
      arrivalTimesS = Collections.unmodifiableList(new ArrayList<@Nullable Double>(arrivalTimesS));
    }
  }

  /**
   * A pair of fibres.
   *
   * @param trigger id of the fibre with the largest amplitude of the unit
   * @param paired id of the other
   * @param meanConsecutiveDifferenceUs as realised, over neighbouring discharges at which both
   *     fired; null if there are none
   * @param expectedJitterUs expectation of the same under the generating laws
   * @param blockingPercent discharges at which the trigger fired and the paired fibre did not, of
   *     those at which the trigger fired; 0 if it never did
   * @param contaminatedBy other fibres of the unit that arrive on average within 500 us of either,
   *     with a tenth of its amplitude or more
   */
  public record PairTruth(
      String trigger,
      String paired,
      @Nullable Double meanConsecutiveDifferenceUs,
      double expectedJitterUs,
      double blockingPercent,
      List<String> contaminatedBy) {

    /** Copies the list. */
    public PairTruth {
      contaminatedBy = List.copyOf(contaminatedBy);
    }
  }

  /**
   * Stimuli and end-plates.
   *
   * @param stimulusTimesS times of the stimuli
   * @param endPlates one a fibre
   */
  public record StimulationTruth(List<Double> stimulusTimesS, List<EndPlateTruth> endPlates) {

    /** Copies the lists. */
    public StimulationTruth {
      stimulusTimesS = List.copyOf(stimulusTimesS);
      endPlates = List.copyOf(endPlates);
    }
  }

  /**
   * One fibre's latencies from the stimulus.
   *
   * @param fibre id of the fibre
   * @param meanConsecutiveDifferenceUs as realised, over neighbouring stimuli at which it fired;
   *     null if there are none
   * @param expectedJitterUs expectation of the same under the generating laws, subliminal stretches
   *     left out
   * @param blockingPercent stimuli at which it did not fire
   */
  public record EndPlateTruth(
      String fibre,
      @Nullable Double meanConsecutiveDifferenceUs,
      double expectedJitterUs,
      double blockingPercent) {}
}
