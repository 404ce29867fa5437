package org.lonefibre.analysis.conditioning;

import java.util.List;
import org.lonefibre.signal.recording.Evidence.Quantity;

/**
 * What was seen in the raw samples of a site.
 *
 * @param clipped at the converter's rails, or again and again at one extreme
 * @param flat constant
 * @param wrapped from a jump over the converter's range to the jump back
 * @param missing not in the file
 * @param garbage replaced at the start
 * @param unusable all of them, in order, merged
 * @param slow mains and baseline
 */
record RawFacts(
    List<Stretch> clipped,
    List<Stretch> flat,
    List<Stretch> wrapped,
    List<Stretch> missing,
    List<Stretch> garbage,
    List<Stretch> unusable,
    SlowSignal slow) {

  /** Baseline range as a quantity for evidence. */
  Quantity baselineRange(String unit) {
    return new Quantity("baseline range", slow.baselineRange(), unit);
  }
}
