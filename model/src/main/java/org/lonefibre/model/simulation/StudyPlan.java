package org.lonefibre.model.simulation;

import java.util.List;
import org.lonefibre.signal.random.RandomStream;

/**
 * A study ready to be recorded: one scenario a site, and what the study says of itself.
 *
 * <p>Record one site after the other with {@link #simulate(int)} and keep only the truths, or in
 * parallel: sites do not depend on each other.
 *
 * @param seed everything follows from it
 * @param needle what records, in words
 * @param muscle muscle key
 * @param activation what makes the muscle active
 * @param sites one scenario a site
 */
public record StudyPlan(
    long seed,
    String needle,
    String muscle,
    SimulatedActivation activation,
    List<SimulationScenario> sites) {

  /** What stands for a needle where none is solved. */
  public static final String POINT_NEEDLE =
      "point electrode, reference point 0.35 mm behind, in place of single-fibre";

  /** Copies the sites. */
  public StudyPlan {
    sites = List.copyOf(sites);
  }

  /**
   * Records a site.
   *
   * @param site its place in {@link #sites()}, from 0
   */
  public SimulatedRecording simulate(int site) {
    RandomStream stream = RandomStream.of(seed).child("recording").child(site);
    return new RecordingSimulator().simulate(sites.get(site), stream);
  }

  /** The truth document of all recordings, given theirs in order. */
  public GroundTruth truth(List<RecordingTruth> recordings) {
    return GroundTruth.of(seed, needle, muscle, recordings);
  }
}
