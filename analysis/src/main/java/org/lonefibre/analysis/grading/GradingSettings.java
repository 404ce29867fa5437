package org.lonefibre.analysis.grading;

/**
 * The rules by which a potential is accepted.
 *
 * @param smallestAmplitudeUv the trade's smallest amplitude. Single-fibre electrode 200 uV (a
 *     national guideline), concentric 50 uV with 1 kHz high-pass (Sanders, workshop material)
 * @param longestRiseUs the trade's longest rise time, 300 us (as above)
 * @param fewestSweeps sweeps under which nothing is judged (engineering choice)
 * @param smallestSnr peak to peak over noise under which shape is not judged (engineering choice)
 * @param compositeProbability a potential is composite under this probability (engineering choice)
 * @param singleProbability a potential is one fibre from this probability (engineering choice)
 */
public record GradingSettings(
    double smallestAmplitudeUv,
    double longestRiseUs,
    int fewestSweeps,
    double smallestSnr,
    double compositeProbability,
    double singleProbability) {

  /** Refuses values that cannot work. */
  public GradingSettings {
    if (!(0 < compositeProbability
        && compositeProbability <= singleProbability
        && singleProbability < 1)) {
      throw new IllegalArgumentException(
          "0 < compositeProbability <= singleProbability < 1 is required, found "
              + compositeProbability
              + " and "
              + singleProbability);
    }
  }

  /** The rules for the single-fibre electrode. */
  public static GradingSettings singleFibre() {
    return new GradingSettings(200, 300, 20, 8, 0.05, 0.48);
  }

  /** The rules for concentric electrodes. */
  public static GradingSettings concentric() {
    return singleFibre().withSmallestAmplitudeUv(50);
  }

  /** The same with another smallest amplitude. */
  public GradingSettings withSmallestAmplitudeUv(double value) {
    return new GradingSettings(
        value, longestRiseUs, fewestSweeps, smallestSnr, compositeProbability, singleProbability);
  }
}
