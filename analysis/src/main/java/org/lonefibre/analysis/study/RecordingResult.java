package org.lonefibre.analysis.study;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.conditioning.ConditioningRecord;
import org.lonefibre.signal.recording.Finding;

/**
 * One site of a study: one stretch of one channel of one file.
 *
 * @param file name of the file, without folders
 * @param sha256 SHA-256 of the whole file, hexadecimal
 * @param format format as read
 * @param site name of the site
 * @param startS start of the stretch since the start of the recording, in seconds
 * @param endS end of the stretch
 * @param channel label of the channel
 * @param samplingRateHz sampling rate
 * @param durationS seconds of signal in the stretch, gaps left out
 * @param noiseUv robust standard deviation outside potentials; null without calibration or signal
 * @param conditioning what was done to the samples; null if nothing could be done
 * @param findings what to know about the recording
 * @param motorUnits motor units (voluntary); null when stimulated
 * @param stimulation what stimuli evoked (stimulated); null when voluntary
 */
public record RecordingResult(
    String file,
    String sha256,
    String format,
    String site,
    double startS,
    double endS,
    String channel,
    double samplingRateHz,
    double durationS,
    @Nullable Double noiseUv,
    @Nullable ConditioningRecord conditioning,
    List<Finding> findings,
    @Nullable List<MotorUnitResult> motorUnits,
    @Nullable StimulationResult stimulation) {

  /** Copies the lists. */
  public RecordingResult {
    findings = List.copyOf(findings);
    motorUnits = motorUnits == null ? null : List.copyOf(motorUnits);
  }

  /** The same site with other findings and results, as a decision of a person changes them. */
  public RecordingResult revised(
      List<Finding> newFindings,
      @Nullable List<MotorUnitResult> newMotorUnits,
      @Nullable StimulationResult newStimulation) {
    return new RecordingResult(
        file,
        sha256,
        format,
        site,
        startS,
        endS,
        channel,
        samplingRateHz,
        durationS,
        noiseUv,
        conditioning,
        newFindings,
        newMotorUnits,
        newStimulation);
  }

  /** All pairs or end-plates of the site, in order. */
  public List<? extends SignalMeasures> signals() {
    if (stimulation != null) {
      return stimulation.endPlates();
    }
    return motorUnits == null
        ? List.of()
        : motorUnits.stream().flatMap(unit -> unit.pairs().stream()).toList();
  }
}
