package org.lonefibre.analysis;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.interval.IntervalSeries;
import org.lonefibre.signal.recording.Finding;

/** What all end-plates of a stimulated recording say together. */
final class StimulationFindings {

  private StimulationFindings() {}

  static List<Finding> of(List<IntervalSeries> series) {
    return List.of();
  }

  static @Nullable Double commonLatencyJitterUs(List<IntervalSeries> series) {
    return null;
  }
}
