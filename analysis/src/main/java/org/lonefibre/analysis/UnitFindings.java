package org.lonefibre.analysis;

import java.util.List;
import org.lonefibre.analysis.interval.IntervalSeries;
import org.lonefibre.analysis.study.EndPlateJitter;
import org.lonefibre.signal.recording.Finding;

/** What all pairs of one unit say together. */
final class UnitFindings {

  private UnitFindings() {}

  static List<Finding> of(List<IntervalSeries> series) {
    return List.of();
  }

  static List<EndPlateJitter> endPlates(List<String> potentials, List<IntervalSeries> series) {
    return List.of();
  }
}
