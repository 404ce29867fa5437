package org.lonefibre.report.csv;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.study.EndPlateResult;
import org.lonefibre.analysis.study.Examination;
import org.lonefibre.analysis.study.MotorUnitResult;
import org.lonefibre.analysis.study.PairResult;
import org.lonefibre.analysis.study.PotentialResult;
import org.lonefibre.analysis.study.RecordingResult;
import org.lonefibre.analysis.study.SignalMeasures;
import org.lonefibre.analysis.study.StimulationResult;
import org.lonefibre.analysis.study.Study;
import org.lonefibre.report.document.ReportDocument;

/**
 * A signal with all that it belongs to.
 *
 * @param examination the examination
 * @param studyNumber number of the study, from 1
 * @param study the study
 * @param recording the site
 * @param unit the motor unit; null when stimulated
 * @param potentials potentials of the unit or the stimulation
 * @param measures the signal
 */
record SignalRow(
    Examination examination,
    int studyNumber,
    Study study,
    RecordingResult recording,
    @Nullable MotorUnitResult unit,
    List<PotentialResult> potentials,
    SignalMeasures measures) {

  SignalRow {
    potentials = List.copyOf(potentials);
  }

  /** {@code DEMO} where the data are invented, else {@code examination}. */
  String provenance() {
    return switch (ReportDocument.Provenance.of(examination.subject())) {
      case DEMO -> "DEMO";
      case EXAMINATION -> "examination";
    };
  }

  static List<SignalRow> listAll(Examination examination) {
    List<SignalRow> rows = new ArrayList<>();
    int number = 0;
    for (Study study : examination.studies()) {
      number++;
      for (RecordingResult recording : study.recordings()) {
        List<MotorUnitResult> units = recording.motorUnits();
        for (MotorUnitResult unit : units == null ? List.<MotorUnitResult>of() : units) {
          for (PairResult pair : unit.pairs()) {
            rows.add(
                new SignalRow(
                    examination, number, study, recording, unit, unit.potentials(), pair));
          }
        }
        StimulationResult stimulation = recording.stimulation();
        if (stimulation != null) {
          for (EndPlateResult endPlate : stimulation.endPlates()) {
            rows.add(
                new SignalRow(
                    examination,
                    number,
                    study,
                    recording,
                    null,
                    stimulation.potentials(),
                    endPlate));
          }
        }
      }
    }
    return rows;
  }

  @Nullable PairResult pair() {
    return measures instanceof PairResult pair ? pair : null;
  }

  @Nullable EndPlateResult endPlate() {
    return measures instanceof EndPlateResult endPlate ? endPlate : null;
  }

  /** The trigger potential; null when stimulated or unknown. */
  @Nullable PotentialResult trigger() {
    PairResult pair = pair();
    return pair == null ? null : potential(pair.triggerPotential());
  }

  /** The paired potential, or the potential of the end-plate; null if unknown. */
  @Nullable PotentialResult measured() {
    return measures instanceof PairResult pair
        ? potential(pair.pairedPotential())
        : measures instanceof EndPlateResult endPlate ? potential(endPlate.potential()) : null;
  }

  private @Nullable PotentialResult potential(String id) {
    return potentials.stream().filter(p -> p.id().equals(id)).findFirst().orElse(null);
  }
}
