package org.lonefibre.analysis.jitter;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Random;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class NearZeroTest {

  /** Where nothing below zero is among the values of a truth, the ends are the usual ones. */
  @Tag("analytic")
  @ParameterizedTest
  @CsvSource({
    "0.0, 0.00, 1.96",
    "1.0, 0.00, 2.96",
    "1.64, 0.00, 3.60",
    "4.0, 2.04, 5.96",
    "9.0, 7.04, 10.96"
  })
  void endsAreTheUsualOnesFarFromZero(double value, double low, double high) {
    assertThat(NearZero.low(value)).isCloseTo(low, within(0.03));
    assertThat(NearZero.high(value)).isCloseTo(high, within(0.03));
  }

  /** Holds 95 % wherever the truth lies. */
  @Tag("property")
  @ParameterizedTest
  @ValueSource(doubles = {0, 0.3, 1, 1.7, 2.5, 4, 8})
  void holdsNinetyFivePercent(double truth) {
    Random random = new Random(7);
    int held = 0;
    int trials = 20_000;
    for (int i = 0; i < trials; i++) {
      double value = truth + random.nextGaussian();
      held += NearZero.low(value) <= truth && truth <= NearZero.high(value) ? 1 : 0;
    }
    assertThat(100.0 * held / trials).isCloseTo(95, within(0.7));
  }
}
