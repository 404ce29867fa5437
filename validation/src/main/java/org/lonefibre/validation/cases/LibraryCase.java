package org.lonefibre.validation.cases;

import org.lonefibre.model.simulation.SimulatedRecording;
import org.lonefibre.signal.recording.FindingCode;

/**
 * A case of the library: how its recording is made, what is true of it, what is to be found.
 *
 * @param id its name
 * @param pitfall recipe of the site
 * @param number number of the site
 * @param holds whether it holds the pitfall, or is the same site without it
 * @param truth what is true of it, in words
 * @param finding the finding in question
 * @param raised whether it is to be raised
 */
public record LibraryCase(
    String id,
    Pitfall pitfall,
    long number,
    boolean holds,
    String truth,
    FindingCode finding,
    boolean raised) {

  /** Its recording, with the truth. */
  public SimulatedRecording simulate() {
    return holds ? pitfall.simulateWith(number) : pitfall.simulateWithout(number);
  }
}
