package org.lonefibre.analysis.jitter;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lonefibre.signal.recording.Finding;

/** What a series of intervals says about jitter: a measurement, or why there is none. */
public sealed interface JitterResult permits JitterMeasurement, UnmeasurableJitter {

  /** Counts of sweeps and differences; always there. */
  JitterCounts counts();

  /** Mean of the inter-discharge (or inter-stimulus) intervals in ms; null if none is known. */
  @Nullable Double meanInterDischargeIntervalMs();

  /** What to know about it, in the order of judgement. */
  List<Finding> findings();

  /** The settings that made it. */
  JitterSettings settings();
}
