package org.lonefibre.workbench.declaration;

import org.lonefibre.analysis.conditioning.ConditionedSignal;
import org.lonefibre.analysis.study.RecordingResult;

/**
 * A recording with a known pitfall, or the same recording without it.
 *
 * @param id its name in the library
 * @param site what the chain measured of it
 * @param signal what was measured, as it is shown and heard
 * @param truth what is true of it, in words
 * @param asked the pitfall it is about, by the code of its choice
 * @param isThere whether it holds the pitfall
 * @param isRaised whether the program says so
 */
public record PitfallCase(
    String id,
    RecordingResult site,
    ConditionedSignal signal,
    String truth,
    String asked,
    boolean isThere,
    boolean isRaised) {

  /** Code of the choice that is none of the pitfalls. */
  public static final String NONE = "none";

  /** Code of the choice that is right. */
  public String expected() {
    return isThere ? asked : NONE;
  }
}
