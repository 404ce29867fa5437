package org.lonefibre.analysis.study;

import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.jitter.JitterStatistic;

/**
 * What pairs and end-plates have in common: counts, jitter, blocking. A signal is a pair
 * (voluntary) or an end-plate (stimulated).
 */
public sealed interface SignalMeasures permits PairResult, EndPlateResult {

  /** Identity within the recording. */
  String id();

  /** Number of sweeps. */
  int sweeps();

  /** Sweeps with the state present. */
  int presentSweeps();

  /** Sweeps with the state blocked. */
  int blockedSweeps();

  /** Sweeps with the state obscured. */
  int obscuredSweeps();

  /** Sweeps with the state excluded. */
  int excludedSweeps();

  /** Number of consecutive differences the jitter rests on. */
  int differences();

  /** Blocked over present and blocked, in percent; null if there are neither. */
  @Nullable Double blockingPercent();

  /** Mean consecutive difference; null if unmeasurable. */
  @Nullable Double meanConsecutiveDifferenceUs();

  /** The jitter quoted; null if unmeasurable. */
  @Nullable Double jitterUs();

  /** Which number is quoted; null if unmeasurable. */
  @Nullable JitterStatistic jitterStatistic();

  /** The jitter that arrival errors alone would give; null if unmeasurable. */
  @Nullable Double timingFloorUs();

  /** Jitter with the floor taken off; null if unmeasurable. */
  @Nullable Double correctedJitterUs();

  /** Lower end of its 95 % interval; null if unmeasurable. */
  @Nullable Double correctedJitterLowUs();

  /** Upper end of its 95 % interval; null if unmeasurable. */
  @Nullable Double correctedJitterHighUs();

  /** Whether it enters the statistics. */
  PairStatus status();

  /** What to know about it. */
  java.util.List<org.lonefibre.signal.recording.Finding> findings();
}
