package org.lonefibre.analysis.jitter;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Random;
import java.util.function.ToDoubleFunction;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.lonefibre.analysis.interval.IntervalSeries;

class TwoClustersTest {

  private static final JitterSettings SETTINGS = JitterSettings.defaults();

  @Tag("property")
  @ParameterizedTest
  @EnumSource(Law.class)
  void oneModeIsTakenForTwoInAtMostTwoSeriesOfAThousand(Law law) {
    assertThat(rate(4000, 60, law::drawUs)).isLessThanOrEqualTo(0.002);
  }

  @Tag("property")
  @ParameterizedTest
  @ValueSource(ints = {30, 60, 100, 200})
  void evenTheUniformLawIsTakenForTwoInAtMostThreeOfAThousand(int sweeps) {
    assertThat(rate(3000, sweeps, Random::nextDouble)).isLessThanOrEqualTo(0.003);
  }

  @Tag("property")
  @ParameterizedTest(name = "{0} sweeps, distance {1} SD, {2} % in the second: {3} % found")
  @CsvSource({
    "60, 6, 50, 90",
    "60, 6, 30, 60",
    "60, 8, 30, 92",
    "100, 5, 50, 88",
    "100, 8, 15, 75"
  })
  void clearJumpsAreFound(int sweeps, double distance, int percent, int leastFound) {
    double rate =
        rate(
            500,
            sweeps,
            random ->
                20 * random.nextGaussian()
                    + (random.nextDouble() < percent / 100.0 ? 20 * distance : 0));
    assertThat(100 * rate).isGreaterThanOrEqualTo(leastFound);
  }

  @Tag("property")
  @Test
  void slowSwingIsNotAJump() {
    Random random = new Random(29);
    int found = 0;
    for (int i = 0; i < 300; i++) {
      Series series = new Series();
      double phase = 6 * random.nextDouble();
      for (int k = 0; k < 100; k++) {
        series.present(800 + 100 * Math.sin(phase + k / 8.0) + 10 * random.nextGaussian());
      }
      found += isFound(series.intervals()) ? 1 : 0;
    }
    assertThat(found).isZero();
  }

  private static double rate(int series, int sweeps, ToDoubleFunction<Random> law) {
    Random random = new Random(31L * sweeps);
    int found = 0;
    for (int i = 0; i < series; i++) {
      found += isFound(Series.drawn(random, sweeps, law)) ? 1 : 0;
    }
    return (double) found / series;
  }

  private static boolean isFound(IntervalSeries series) {
    return TwoClusters.find(new PresentIntervals(series), SETTINGS).isPresent();
  }
}
