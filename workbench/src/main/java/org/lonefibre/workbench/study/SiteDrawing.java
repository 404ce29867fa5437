package org.lonefibre.workbench.study;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.study.MotorUnitResult;
import org.lonefibre.analysis.study.RecordingResult;
import org.lonefibre.analysis.study.StimulationResult;
import org.lonefibre.analysis.study.SweepDrawing;

/**
 * A site as it stands among others: its sweeps on one trigger.
 *
 * @param site its name
 * @param unit the motor unit drawn; empty for stimuli, or if there is none
 * @param drawing its sweeps; null if none are kept
 */
record SiteDrawing(String site, String unit, @Nullable SweepDrawing drawing) {

  static SiteDrawing of(RecordingResult recording) {
    StimulationResult stimulation = recording.stimulation();
    if (stimulation != null) {
      return new SiteDrawing(recording.site(), "", stimulation.drawing());
    }
    List<MotorUnitResult> units =
        recording.motorUnits() == null ? List.of() : recording.motorUnits();
    return units.stream()
        .filter(unit -> !unit.pairs().isEmpty() && unit.drawing() != null)
        .findFirst()
        .map(unit -> new SiteDrawing(recording.site(), unit.id(), unit.drawing()))
        .orElseGet(() -> new SiteDrawing(recording.site(), "", null));
  }
}
