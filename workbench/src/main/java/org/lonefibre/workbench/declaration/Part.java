package org.lonefibre.workbench.declaration;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.study.Activation;
import org.lonefibre.analysis.study.Side;

/**
 * One muscle examined one way with one needle.
 *
 * @param muscle muscle key; null if not given
 * @param side side of the body; null if not given
 * @param needle needle key; null if not given
 * @param activation how the muscle was made to contract; null if not given
 * @param limits the limit set asked for; null to take the one that fits
 * @param sources its recordings
 */
public record Part(
    @Nullable String muscle,
    @Nullable Side side,
    @Nullable String needle,
    @Nullable Activation activation,
    @Nullable String limits,
    List<Source> sources) {

  /** Copies the sources. */
  public Part {
    sources = List.copyOf(sources);
  }

  /** Whether its sites must be analysed anew to be those of another declaration. */
  public boolean isAnalysedAs(Part other) {
    return java.util.Objects.equals(needle, other.needle)
        && activationOrDefault() == other.activationOrDefault()
        && sources.equals(other.sources);
  }

  /** Whether recordings of the other are of this part: the same muscle, side, needle and so on. */
  public boolean isOfOne(Part other) {
    return without().equals(other.without());
  }

  private Part without() {
    return new Part(muscle, side, needle, activation, null, List.of());
  }

  /** The same with more recordings behind those there are. */
  public Part withMore(List<Source> more) {
    List<Source> all = new java.util.ArrayList<>(sources);
    all.addAll(more);
    return new Part(muscle, side, needle, activation, limits, all);
  }

  /** The activation, voluntary where none is given. */
  public Activation activationOrDefault() {
    return activation == null ? Activation.VOLUNTARY : activation;
  }
}
