package org.lonefibre.analysis.jitter;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.function.ToDoubleFunction;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.interval.IntervalSeries;
import org.lonefibre.analysis.interval.SweepInterval;
import org.lonefibre.analysis.interval.SweepState;

/** Builds series for tests. */
final class Series {

  private final List<SweepInterval> sweeps = new ArrayList<>();
  private @Nullable Double errorUs;

  Series withErrorUs(double error) {
    errorUs = error;
    return this;
  }

  Series present(double intervalUs, @Nullable Double precedingMs) {
    return add(SweepState.PRESENT, intervalUs, precedingMs, !sweeps.isEmpty());
  }

  Series present(double intervalUs) {
    return present(intervalUs, null);
  }

  Series afterGap(double intervalUs) {
    return add(SweepState.PRESENT, intervalUs, null, false);
  }

  Series absent(SweepState state) {
    return add(state, null, null, !sweeps.isEmpty());
  }

  Series add(
      SweepState state,
      @Nullable Double intervalUs,
      @Nullable Double precedingMs,
      boolean follows) {
    int number = sweeps.size() + 1;
    sweeps.add(
        new SweepInterval(
            number,
            0.1 * number,
            intervalUs,
            intervalUs == null ? null : errorUs,
            state,
            precedingMs,
            follows));
    return this;
  }

  IntervalSeries intervals() {
    return new IntervalSeries(IntervalSeries.Kind.INTER_POTENTIAL_INTERVAL, sweeps, 0);
  }

  IntervalSeries latencies(double stimulusErrorUs) {
    return new IntervalSeries(IntervalSeries.Kind.STIMULUS_LATENCY, sweeps, stimulusErrorUs);
  }

  /** A voluntary series of independent values round 800 us. */
  static IntervalSeries drawn(Random random, int count, ToDoubleFunction<Random> law) {
    Series series = new Series();
    for (int i = 0; i < count; i++) {
      series.present(800 + law.applyAsDouble(random), 100 + 8 * random.nextGaussian());
    }
    return series.intervals();
  }

  static JitterMeasurement measured(IntervalSeries series) {
    return measured(series, JitterSettings.defaults());
  }

  static JitterMeasurement measured(IntervalSeries series, JitterSettings settings) {
    return (JitterMeasurement) new JitterEstimator(settings).measure(series);
  }
}
