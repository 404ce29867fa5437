package org.lonefibre.validation.score;

/**
 * Counts over sites of several units.
 *
 * @param fibres fibres large enough to be followed
 * @param found of those, fibres that are a potential of a pair
 * @param discharges discharges of units of which a pair was found
 * @param seen of those, discharges that are a sweep of that pair
 * @param overlapped of those, discharges in which another unit's potential lies within 1.5 ms of
 *     one of the pair
 * @param present sweeps in which a pair was measured
 * @param swapped of those, sweeps in which its two fibres did not fire with that interval
 * @param judged sweeps of found pairs judged present or blocked, the trigger having fired
 * @param falseBlocks of those, blocked though the fibre fired
 * @param trueBlocks of those, sweeps in which the fibre did not fire
 * @param foundBlocks of those, judged blocked
 * @param inventedPairs measured pairs that no two fibres explain, or that are of two fibres a
 *     second time
 */
public record UnitsScore(
    int fibres,
    int found,
    int discharges,
    int seen,
    int overlapped,
    int present,
    int swapped,
    int judged,
    int falseBlocks,
    int trueBlocks,
    int foundBlocks,
    int inventedPairs) {

  /** Nothing yet. */
  public static final UnitsScore NONE = new UnitsScore(0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0);

  /** Both together. */
  public UnitsScore plus(UnitsScore o) {
    return new UnitsScore(
        fibres + o.fibres,
        found + o.found,
        discharges + o.discharges,
        seen + o.seen,
        overlapped + o.overlapped,
        present + o.present,
        swapped + o.swapped,
        judged + o.judged,
        falseBlocks + o.falseBlocks,
        trueBlocks + o.trueBlocks,
        foundBlocks + o.foundBlocks,
        inventedPairs + o.inventedPairs);
  }
}
