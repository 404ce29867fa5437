package org.lonefibre.analysis.chain;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lonefibre.analysis.interval.IntervalSeries;
import org.lonefibre.analysis.interval.SweepInterval;
import org.lonefibre.analysis.interval.SweepState;
import org.lonefibre.analysis.jitter.JitterEstimator;
import org.lonefibre.analysis.jitter.JitterMeasurement;
import org.lonefibre.analysis.jitter.JitterResult;
import org.lonefibre.analysis.jitter.JitterSettings;

/** Mean consecutive differences of the intervals sent and found, by the estimator of studies. */
record PairJitter(
    double constantUs, double constantLowUs, double constantHighUs, double sentUs, double foundUs) {

  /**
   * Measures them.
   *
   * @throws IllegalArgumentException if too few pairs follow each other
   */
  static PairJitter of(
      List<TestSignal.Pair> pairs, List<PulseTimes.@Nullable Found> found, ClockFit clock) {
    List<SweepInterval> constant = new ArrayList<>();
    List<SweepInterval> sent = new ArrayList<>();
    List<SweepInterval> back = new ArrayList<>();
    for (int i = 0; i < pairs.size(); i++) {
      PulseTimes.Found pair = found.get(i);
      if (pair == null || clock.after().contains(i)) {
        continue;
      }
      double intervalUs = (pair.second() - pair.first()) * 1e6 / clock.samplesPerS();
      if (pairs.get(i).intervalUs() == TestSignal.CONSTANT_INTERVAL_US) {
        constant.add(interval(constant, i, intervalUs));
      } else {
        sent.add(interval(sent, i, pairs.get(i).intervalUs()));
        back.add(interval(back, i, intervalUs));
      }
    }
    JitterMeasurement still = measured(constant);
    return new PairJitter(
        still.meanConsecutiveDifferenceUs(),
        still.correctedJitterLowUs(),
        still.correctedJitterHighUs(),
        measured(sent).meanConsecutiveDifferenceUs(),
        measured(back).meanConsecutiveDifferenceUs());
  }

  /** What was found is what is judged: no error is taken off, so that the floor is 0. */
  private static SweepInterval interval(List<SweepInterval> before, int pair, double intervalUs) {
    boolean follows = !before.isEmpty() && before.get(before.size() - 1).sweep() == pair;
    return new SweepInterval(pair + 1, pair, intervalUs, 0.0, SweepState.PRESENT, null, follows);
  }

  private static JitterMeasurement measured(List<SweepInterval> intervals) {
    JitterResult result =
        new JitterEstimator(JitterSettings.defaults())
            .measure(new IntervalSeries(IntervalSeries.Kind.STIMULUS_LATENCY, intervals, 0));
    if (result instanceof JitterMeasurement measurement) {
      return measurement;
    }
    throw new IllegalArgumentException(
        intervals.size() + " pairs of one part of the test signal, too few that follow each other");
  }
}
