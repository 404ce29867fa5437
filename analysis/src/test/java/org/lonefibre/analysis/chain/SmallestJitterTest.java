package org.lonefibre.analysis.chain;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.lonefibre.signal.random.RandomStream;

/** The interval of the smallest measurable jitter, over many chains whose errors are known. */
class SmallestJitterTest {

  private static final int CHAINS = 2000;
  private static final double RATE_HZ = 50_000;
  private static final double ERROR_US = 0.6;

  @Tag("property")
  @Test
  void nineteenOfTwentyIntervalsHoldTheTrueValue() {
    List<TestSignal.Pair> pairs = new TestSignal().pairs();
    double trueUs = 2 / Math.sqrt(Math.PI) * Math.sqrt(2) * ERROR_US;
    int held = 0;
    double widthUs = 0;
    for (int seed = 0; seed < CHAINS; seed++) {
      RandomStream random = RandomStream.of(1000 + seed);
      List<PulseTimes.@Nullable Found> found = new ArrayList<>();
      for (TestSignal.Pair pair : pairs) {
        found.add(
            new PulseTimes.Found(
                at(pair.timeS(), random), at(pair.timeS() + pair.intervalUs() * 1e-6, random)));
      }
      PairJitter jitter = PairJitter.of(pairs, found, ClockFit.of(pairs, found));
      held += jitter.constantLowUs() <= trueUs && trueUs <= jitter.constantHighUs() ? 1 : 0;
      widthUs += (jitter.constantHighUs() - jitter.constantLowUs()) / CHAINS;
    }
    assertThat((double) held / CHAINS).isBetween(0.935, 0.965);
    // 0.915 / sqrt(n) of the value to each side, 148 differences of Gaussian errors.
    assertThat(widthUs / trueUs).isBetween(0.26, 0.33);
  }

  @Test
  void tooFewPairsThatFollowEachOtherAreRefused() {
    List<TestSignal.Pair> pairs = new TestSignal().pairs();
    List<PulseTimes.@Nullable Found> found =
        new ArrayList<>(Collections.nCopies(pairs.size(), null));
    for (int i = 0; i < pairs.size(); i += 2) {
      TestSignal.Pair pair = pairs.get(i);
      found.set(
          i,
          new PulseTimes.Found(
              pair.timeS() * RATE_HZ, (pair.timeS() + pair.intervalUs() * 1e-6) * RATE_HZ));
    }
    ClockFit clock = ClockFit.of(pairs, found);
    assertThatThrownBy(() -> PairJitter.of(pairs, found, clock))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("too few that follow each other");
  }

  private static double at(double timeS, RandomStream random) {
    return (timeS + ERROR_US * 1e-6 * random.gaussianRatio()) * RATE_HZ;
  }
}
