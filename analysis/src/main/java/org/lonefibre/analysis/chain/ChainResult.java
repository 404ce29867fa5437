package org.lonefibre.analysis.chain;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What a machine and its export do to a signal.
 *
 * @param declaredRateHz rate as the export says it
 * @param trueRateHz samples in a second of the player's clock
 * @param pairsSent pairs in the test signal
 * @param pairsFound pairs found in the export
 * @param highPassHz where 3 dB are lost below; null if nowhere from 5 Hz on
 * @param highPassOrder order of one pass; 0 if unknown or none
 * @param lowPassHz where 3 dB are lost above; null if nowhere up to 0.45 of the rate and 20 kHz
 * @param lowPassOrder order of one pass; 0 if unknown or none
 * @param pulseUv largest value of the full tone in the export; null if uncalibrated
 * @param noiseRatio standard deviation of the silence against the full tone
 * @param stepRatio smallest step between values against the full tone
 * @param smallestJitterUs mean consecutive difference of intervals that do not vary
 * @param smallestJitterLowUs lower end of its 95 % interval
 * @param smallestJitterHighUs upper end of its 95 % interval
 * @param sentJitterUs mean consecutive difference of the varying intervals as sent
 * @param foundJitterUs the same as found
 * @param steps what changed the signal
 */
public record ChainResult(
    double declaredRateHz,
    double trueRateHz,
    int pairsSent,
    int pairsFound,
    @Nullable Double highPassHz,
    int highPassOrder,
    @Nullable Double lowPassHz,
    int lowPassOrder,
    @Nullable Double pulseUv,
    double noiseRatio,
    double stepRatio,
    double smallestJitterUs,
    double smallestJitterLowUs,
    double smallestJitterHighUs,
    double sentJitterUs,
    double foundJitterUs,
    List<ChainStep> steps) {

  /** Copies the list. */
  public ChainResult {
    steps = List.copyOf(steps);
  }
}
