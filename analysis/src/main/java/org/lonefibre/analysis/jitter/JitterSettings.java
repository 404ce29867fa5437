package org.lonefibre.analysis.jitter;

/**
 * What the measuring of jitter rests on.
 *
 * @param minimumDifferences fewer differences than this: unmeasurable; default 20, engineering
 *     choice
 * @param fewDifferences fewer than this: a caution; default 50, from memory of the guideline of
 *     2019 (50 to 100 discharges a signal), Ekstedt, Nilsson, Stalberg 1974 preferred 50
 * @param sortedRatio MCD/MSD above this: MSD is the jitter; default 1.25, from memory (Stalberg and
 *     Trontelj; AAEM minimonograph 25)
 * @param trendRatio MCD/MSD below this: a trend; default 0.8, computed
 * @param ratioDifferences differences needed before either ratio is used; default 50, computed: by
 *     chance the ratio exceeds 1.25 in 6.9 % of series at 30, 2.4 % at 50
 * @param lowJitterUs jitter below this is not that of one end-plate; default 5 us, review article
 *     2019
 * @param lowJitterFloorUs above this timing floor the corrected jitter alone never calls a jitter
 *     low; default 8 us, engineering choice
 * @param longIntervalUs mean interval above this: excluded; default 4,000 us, from memory of
 *     textbooks
 * @param shortIntervalUs mean interval below this: a caution; default 150 us, from memory of
 *     practice
 * @param highBlockingPercent blocking above this: jitter of the rest is not reliable; default 50,
 *     from memory of textbooks
 * @param nearFloorRatio jitter below this many floors: a caution; default 2, engineering choice
 * @param clusterProbability chance at which one cluster is given up for two; default 0.005,
 *     engineering choice: at most 2 series in 1,000 with one mode, by simulation
 * @param clusterSweeps present sweeps needed before two clusters are looked for; default 20,
 *     engineering choice
 */
public record JitterSettings(
    int minimumDifferences,
    int fewDifferences,
    double sortedRatio,
    double trendRatio,
    int ratioDifferences,
    double lowJitterUs,
    double lowJitterFloorUs,
    double longIntervalUs,
    double shortIntervalUs,
    double highBlockingPercent,
    double nearFloorRatio,
    double clusterProbability,
    int clusterSweeps) {

  /** Refuses values without sense. */
  public JitterSettings {
    atLeast("minimumDifferences", minimumDifferences, 1, "differences");
    atLeast("fewDifferences", fewDifferences, minimumDifferences, "differences");
    atLeast("sortedRatio", sortedRatio, 1, "");
    within("trendRatio", trendRatio, 0, 1, "");
    atLeast("ratioDifferences", ratioDifferences, 1, "differences");
    within("lowJitterUs", lowJitterUs, 0, 100, "us");
    within("lowJitterFloorUs", lowJitterFloorUs, 0, 100, "us");
    within("longIntervalUs", longIntervalUs, 0, 100_000, "us");
    within("shortIntervalUs", shortIntervalUs, 0, longIntervalUs, "us");
    within("highBlockingPercent", highBlockingPercent, 0, 100, "%");
    atLeast("nearFloorRatio", nearFloorRatio, 1, "");
    within("clusterProbability", clusterProbability, 0, 0.5, "");
    atLeast("clusterSweeps", clusterSweeps, 10, "sweeps");
  }

  /** The values in use unless told otherwise. */
  public static JitterSettings defaults() {
    return new JitterSettings(20, 50, 1.25, 0.8, 50, 5, 8, 4_000, 150, 50, 2, 0.005, 20);
  }

  /** The same with another least number of differences. */
  public JitterSettings withMinimumDifferences(int differences) {
    return new JitterSettings(
        differences,
        fewDifferences,
        sortedRatio,
        trendRatio,
        ratioDifferences,
        lowJitterUs,
        lowJitterFloorUs,
        longIntervalUs,
        shortIntervalUs,
        highBlockingPercent,
        nearFloorRatio,
        clusterProbability,
        clusterSweeps);
  }

  /** The same with another ratio MCD/MSD above which MSD is quoted. */
  public JitterSettings withSortedRatio(double ratio) {
    return new JitterSettings(
        minimumDifferences,
        fewDifferences,
        ratio,
        trendRatio,
        ratioDifferences,
        lowJitterUs,
        lowJitterFloorUs,
        longIntervalUs,
        shortIntervalUs,
        highBlockingPercent,
        nearFloorRatio,
        clusterProbability,
        clusterSweeps);
  }

  /** The same with other limits of the mean interval, in us. */
  public JitterSettings withIntervalLimitsUs(double shortUs, double longUs) {
    return new JitterSettings(
        minimumDifferences,
        fewDifferences,
        sortedRatio,
        trendRatio,
        ratioDifferences,
        lowJitterUs,
        lowJitterFloorUs,
        longUs,
        shortUs,
        highBlockingPercent,
        nearFloorRatio,
        clusterProbability,
        clusterSweeps);
  }

  private static void atLeast(String name, double value, double least, String unit) {
    within(name, value, least, Double.MAX_VALUE, unit);
  }

  private static void within(String name, double value, double least, double most, String unit) {
    if (!(value >= least && value <= most)) {
      throw new IllegalArgumentException(
          name
              + " must be "
              + least
              + (most == Double.MAX_VALUE ? " or more" : " to " + most)
              + (unit.isEmpty() ? "" : " " + unit)
              + ", found "
              + value);
    }
  }
}
