package org.lonefibre.signal.recording;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What one signal of a recording is, as its file declares it.
 *
 * @param number position in the file, from 1
 * @param label label as written; hostile text, escaped wherever it is shown
 * @param unit unit as written, empty if none
 * @param calibration whether samples are microvolts
 * @param timeBase exact rate
 * @param sampleCount samples stored, over all segments
 * @param segments continuous stretches in order of time, not overlapping
 * @param lowRailUv lowest value the converter could store, in the unit of the samples; null if
 *     unknown
 * @param highRailUv highest value the converter could store; null if unknown
 * @param resolutionUv value of one converter step; null if unknown
 * @param prefilter what the file says it was filtered with, as written; empty if nothing
 */
public record Channel(
    int number,
    String label,
    String unit,
    Calibration calibration,
    TimeBase timeBase,
    long sampleCount,
    List<Segment> segments,
    @Nullable Double lowRailUv,
    @Nullable Double highRailUv,
    @Nullable Double resolutionUv,
    String prefilter) {

  /** Whether the amplitude of a sample means anything. */
  public enum Calibration {
    /** Samples are microvolts. */
    MICROVOLT,
    /** Samples are in a unit that is missing or cannot be read; jitter is still possible. */
    NONE
  }

  /** Copies the segments; refuses a number below 1. */
  public Channel {
    if (number < 1) {
      throw new IllegalArgumentException("channel number must be 1 or more, found " + number);
    }
    segments = List.copyOf(segments);
  }

  /** Duration of all samples, gaps left out, in seconds. */
  public double durationS() {
    return timeBase.timeS(sampleCount);
  }
}
