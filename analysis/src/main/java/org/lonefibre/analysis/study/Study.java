package org.lonefibre.analysis.study;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * One muscle examined one way with one needle.
 *
 * @param muscle muscle key; null if not given
 * @param side side of the body; null if not given
 * @param activation how the muscle was made to contract
 * @param needle needle key, or the name of a needle file; null if not given
 * @param recordings its sites
 * @param summary the study in numbers
 */
public record Study(
    @Nullable String muscle,
    @Nullable Side side,
    Activation activation,
    @Nullable String needle,
    List<RecordingResult> recordings,
    StudySummary summary) {

  /** Copies the recordings. */
  public Study {
    recordings = List.copyOf(recordings);
  }
}
