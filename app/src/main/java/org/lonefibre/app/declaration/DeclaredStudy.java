package org.lonefibre.app.declaration;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.study.Activation;
import org.lonefibre.analysis.study.Side;

/**
 * One muscle examined one way with one needle, as declared.
 *
 * @param muscle muscle key; null if not given
 * @param side side of the body; null if not given
 * @param needle needle key, or the name of a needle of the laboratory's own; null if not given
 * @param activation how the muscle was made to contract; null if not given
 * @param limits the limit set asked for; null to take the one that fits
 * @param recordings its recordings
 */
public record DeclaredStudy(
    @Nullable String muscle,
    @Nullable Side side,
    @Nullable String needle,
    @Nullable Activation activation,
    @Nullable String limits,
    List<DeclaredRecording> recordings) {

  /** Copies the recordings. */
  public DeclaredStudy {
    recordings = List.copyOf(recordings);
  }
}
