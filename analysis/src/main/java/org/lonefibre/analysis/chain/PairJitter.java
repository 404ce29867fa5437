package org.lonefibre.analysis.chain;

import java.util.List;
import org.jspecify.annotations.Nullable;

/** Mean consecutive differences of the intervals sent and found. */
record PairJitter(double constantUs, double sentUs, double foundUs) {

  static PairJitter of(
      List<TestSignal.Pair> pairs, List<PulseTimes.@Nullable Found> found, ClockFit clock) {
    Differences constant = new Differences();
    Differences sent = new Differences();
    Differences back = new Differences();
    for (int i = 0; i < pairs.size(); i++) {
      PulseTimes.Found pair = found.get(i);
      if (pair == null || clock.after().contains(i)) {
        continue;
      }
      double intervalUs = (pair.second() - pair.first()) * 1e6 / clock.samplesPerS();
      if (pairs.get(i).intervalUs() == TestSignal.CONSTANT_INTERVAL_US) {
        constant.add(intervalUs);
      } else {
        sent.add(pairs.get(i).intervalUs());
        back.add(intervalUs);
      }
    }
    return new PairJitter(constant.mean(), sent.mean(), back.mean());
  }

  private static final class Differences {
    private double sum;
    private int count;
    private double last;

    void add(double value) {
      sum += count == 0 ? 0 : Math.abs(value - last);
      last = value;
      count++;
    }

    double mean() {
      return count < 2 ? 0 : sum / (count - 1);
    }
  }
}
