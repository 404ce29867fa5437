package org.lonefibre.validation.score;

/**
 * Counts over simulated sites.
 *
 * @param sites sites scored
 * @param eligiblePairs pairs of the truth that count: both fibres with SNR over 5, none
 *     contaminated, 300 us to 4 ms apart, at least 20 differences
 * @param foundPairs of those, pairs found
 * @param rightJitters of those, corrected jitter within max(1 us, 5 %, 3 floor / sqrt(differences))
 *     of the realised one
 * @param judgedSweeps sweeps of found pairs judged present or blocked
 * @param falseBlocks of those, blocked though the fibre fired
 * @param trueBlocks sweeps of found pairs in which the fibre did not fire and which were judged
 * @param foundBlocks of those, judged blocked
 * @param inventedPairs measured pairs that no pair of the truth explains
 */
public record Score(
    int sites,
    int eligiblePairs,
    int foundPairs,
    int rightJitters,
    int judgedSweeps,
    int falseBlocks,
    int trueBlocks,
    int foundBlocks,
    int inventedPairs) {

  /** Nothing yet. */
  public static final Score NONE = new Score(0, 0, 0, 0, 0, 0, 0, 0, 0);

  /** Both together. */
  public Score plus(Score other) {
    return new Score(
        sites + other.sites,
        eligiblePairs + other.eligiblePairs,
        foundPairs + other.foundPairs,
        rightJitters + other.rightJitters,
        judgedSweeps + other.judgedSweeps,
        falseBlocks + other.falseBlocks,
        trueBlocks + other.trueBlocks,
        foundBlocks + other.foundBlocks,
        inventedPairs + other.inventedPairs);
  }

  /** Share of eligible pairs that were found, in percent; 100 if there are none. */
  public double foundPercent() {
    return percent(foundPairs, eligiblePairs);
  }

  /** Share of found pairs whose jitter is right, in percent; 100 if there are none. */
  public double rightPercent() {
    return percent(rightJitters, foundPairs);
  }

  /** Share of true blocks found, in percent; 100 if there are none. */
  public double blocksPercent() {
    return percent(foundBlocks, trueBlocks);
  }

  private static double percent(int part, int whole) {
    return whole == 0 ? 100 : 100.0 * part / whole;
  }
}
