package org.lonefibre.model.endplate;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.lonefibre.signal.random.RandomStream;

final class EndPlateTest {

  private static final int MANY = 60_000;

  private static double[] regularTimes(int count) {
    double[] times = new double[count];
    for (int i = 0; i < count; i++) {
      times[i] = 0.1 * i;
    }
    return times;
  }

  private static double meanConsecutiveDifference(EndPlateSettings a, EndPlateSettings b) {
    double[] times = regularTimes(MANY);
    Transmissions first = new EndPlate(a).transmit(times, RandomStream.of(1));
    Transmissions second = new EndPlate(b).transmit(times, RandomStream.of(2));
    double sum = 0;
    int count = 0;
    for (int i = 1; i < MANY; i++) {
      if (first.present(i) && first.present(i - 1) && second.present(i) && second.present(i - 1)) {
        double now = second.delayUs(i) - first.delayUs(i);
        double before = second.delayUs(i - 1) - first.delayUs(i - 1);
        sum += Math.abs(now - before);
        count++;
      }
    }
    return sum / count;
  }

  static Stream<Arguments> pairsOfLaws() {
    List<EndPlateSettings> laws =
        List.of(
            EndPlateSettings.gaussian(18),
            EndPlateSettings.gamma(25).withBlockingProbability(0.2),
            EndPlateSettings.threshold(3),
            EndPlateSettings.threshold(1.3),
            EndPlateSettings.gaussian(10).withFlipFlop(120, 0.3),
            EndPlateSettings.gaussian(12).withTrendPerDischargeUs(0.001),
            EndPlateSettings.constant());
    return laws.stream().flatMap(a -> laws.stream().map(b -> Arguments.of(a, b)));
  }

  /** Neighbouring differences are dependent: five standard errors of n/2 independent ones. */
  @ParameterizedTest
  @MethodSource("pairsOfLaws")
  @Tag("property")
  void expectedJitterIsWhatDrawsGive(EndPlateSettings a, EndPlateSettings b) {
    double expected = new ExpectedJitter().add(b).subtract(a).meanConsecutiveDifferenceUs(10);
    assertThat(meanConsecutiveDifference(a, b))
        .isCloseTo(expected, within(0.001 + 0.022 * expected));
  }

  /** 2/sqrt(pi) = 1.128 (Ekstedt, Nilsson and Stalberg 1974). */
  @Test
  @Tag("published")
  void gaussianDelaysGive1128TimesTheirDeviation() {
    double expected =
        new ExpectedJitter()
            .add(EndPlateSettings.gaussian(30))
            .subtract(EndPlateSettings.gaussian(40))
            .meanConsecutiveDifferenceUs(0);
    assertThat(expected).isCloseTo(1.1283792 * 50, within(1e-3));
  }

  /**
   * Voluntary jitter of two equal end-plates by safety factor, 50 quanta and 0.6 ms rise, as the
   * project's reference calculation gives it.
   */
  @ParameterizedTest
  @CsvSource({"5,31", "4,39", "3,52", "2,78", "1.5,95", "1.2,88"})
  @Tag("crossCheck")
  void jitterFollowsTheSafetyFactorAsComputed(double safetyFactor, double jitterUs) {
    EndPlateSettings settings = EndPlateSettings.threshold(safetyFactor);
    double expected =
        new ExpectedJitter().add(settings).subtract(settings).meanConsecutiveDifferenceUs(0);
    assertThat(expected / jitterUs).isCloseTo(1, within(0.05));
  }

  @Test
  @Tag("crossCheck")
  void blockingFollowsTheSafetyFactorAsComputed() {
    assertThat(new EndPlate(EndPlateSettings.threshold(1.5)).blockingProbability())
        .isCloseTo(0.012, within(0.004));
    assertThat(new EndPlate(EndPlateSettings.threshold(1.2)).blockingProbability())
        .isCloseTo(0.13, within(0.01));
    assertThat(new EndPlate(EndPlateSettings.threshold(5)).blockingProbability())
        .isCloseTo(0, within(1e-6));
  }

  @Test
  @Tag("property")
  void blockingChangesNoDelay() {
    double[] times = regularTimes(500);
    Transmissions all =
        new EndPlate(EndPlateSettings.gaussian(20)).transmit(times, RandomStream.of(4));
    Transmissions some =
        new EndPlate(EndPlateSettings.gaussian(20).withBlockingProbability(0.5))
            .transmit(times, RandomStream.of(4));
    int blocked = 0;
    for (int i = 0; i < 500; i++) {
      if (some.present(i)) {
        assertThat(some.delayUs(i)).isEqualTo(all.delayUs(i));
      } else {
        blocked++;
      }
    }
    assertThat(blocked).isBetween(200, 300);
  }

  @Test
  @Tag("analytic")
  void recoveryFollowsThePrecedingInterval() {
    double[] times = {0, 0.1, 0.22, 0.3, 0.4};
    Transmissions train =
        new EndPlate(EndPlateSettings.constant().withRecoveryPerMsUs(2))
            .transmit(times, RandomStream.of(1));
    assertThat(train.delayUs(2) - train.delayUs(1)).isCloseTo(40, within(1e-9));
    assertThat(train.delayUs(3) - train.delayUs(2)).isCloseTo(-80, within(1e-9));
  }

  @Test
  @Tag("analytic")
  void aTrendAloneGivesItsStepAndWhatIsSharedCancels() {
    EndPlateSettings trend = EndPlateSettings.constant().withTrendPerDischargeUs(3);
    assertThat(new ExpectedJitter().add(trend).meanConsecutiveDifferenceUs(0))
        .isCloseTo(3, within(0.01));
    assertThat(new ExpectedJitter().meanConsecutiveDifferenceUs(0)).isZero();
  }

  @Test
  @Tag("contract")
  void aBlockedDischargeHasNoDelay() {
    Transmissions none =
        new EndPlate(EndPlateSettings.gaussian(20).withBlockingProbability(1))
            .transmit(regularTimes(2), RandomStream.of(4));
    assertThatIllegalArgumentException()
        .isThrownBy(() -> none.delayUs(1))
        .withMessageContaining("blocked");
    assertThatIllegalArgumentException()
        .isThrownBy(() -> EndPlateSettings.gaussian(-1))
        .withMessageContaining("us, found -1");
  }
}
