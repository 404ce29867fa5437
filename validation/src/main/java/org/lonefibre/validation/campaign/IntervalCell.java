package org.lonefibre.validation.campaign;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.interval.IntervalSeries;
import org.lonefibre.analysis.interval.SweepInterval;
import org.lonefibre.analysis.interval.SweepState;
import org.lonefibre.signal.random.RandomStream;

/**
 * A condition of simulated series of intervals.
 *
 * @param law law of the interval
 * @param differences number of differences in each series
 * @param blockedPercent share of sweeps without the potential
 * @param errorUs standard error of each measured interval, told to the estimator
 * @param trendUs drift over the series
 * @param perMsUs dependence of the interval on the inter-discharge interval before it, in us a ms
 */
public record IntervalCell(
    IntervalLaw law,
    int differences,
    double blockedPercent,
    double errorUs,
    double trendUs,
    double perMsUs) {

  private static final double MEAN_US = 800;
  private static final double INTERVAL_MS = 100;
  private static final double INTERVAL_SPREAD_MS = 8;

  /** Its name, from which trials draw. */
  String key() {
    return law
        + "/"
        + differences
        + "/"
        + blockedPercent
        + "/"
        + errorUs
        + "/"
        + trendUs
        + "/"
        + perMsUs;
  }

  /** One series. */
  IntervalSeries draw(RandomStream random) {
    List<SweepInterval> sweeps = new ArrayList<>();
    boolean lastPresent = false;
    int found = 0;
    // The first sweep does not know the interval before it and is lost to the sorted differences.
    int wanted = differences + (perMsUs == 0 ? 0 : 1);
    while (found < wanted) {
      boolean present = !random.happens(blockedPercent / 100);
      double before = INTERVAL_MS + INTERVAL_SPREAD_MS * random.gaussianRatio();
      double value =
          MEAN_US
              + law.drawUs(random)
              + errorUs * random.gaussianRatio()
              + trendUs * found / differences
              + perMsUs * (before - INTERVAL_MS);
      sweeps.add(sweep(sweeps.size() + 1, present ? value : null, before));
      found += present && lastPresent ? 1 : 0;
      lastPresent = present;
    }
    return new IntervalSeries(IntervalSeries.Kind.INTER_POTENTIAL_INTERVAL, sweeps, 0);
  }

  private SweepInterval sweep(int number, @Nullable Double valueUs, double beforeMs) {
    return new SweepInterval(
        number,
        number * INTERVAL_MS / 1e3,
        valueUs,
        valueUs == null ? null : errorUs,
        valueUs == null ? SweepState.BLOCKED : SweepState.PRESENT,
        number == 1 ? null : beforeMs,
        number > 1);
  }
}
