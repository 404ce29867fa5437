package org.lonefibre.model.simulation;

import java.util.List;

/**
 * What truly happened in all recordings of a simulated study. Component names are those of the
 * document truth.json.
 *
 * @param schema {@value #SCHEMA}
 * @param seed the seed that made it
 * @param needle what recorded
 * @param muscle what was recorded
 * @param recordings in order
 */
public record GroundTruth(
    String schema, long seed, String needle, String muscle, List<RecordingTruth> recordings) {

  /** Name and version of the document. */
  public static final String SCHEMA = "lonefibre-truth-1";

  /** Copies the list. */
  public GroundTruth {
    recordings = List.copyOf(recordings);
  }

  /** The truth of some recordings. */
  public static GroundTruth of(
      long seed, String needle, String muscle, List<RecordingTruth> recordings) {
    return new GroundTruth(SCHEMA, seed, needle, muscle, recordings);
  }
}
