package org.lonefibre.signal.random;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;

final class RandomStreamTest {

  private static final int MANY = 400_000;

  /** Outputs that other implementations print for the state 1, 2, 3, 4; from memory. */
  @Test
  @Tag("published")
  void theGeneratorGivesTheKnownOutputsOfXoshiro256PlusPlus() {
    RandomStream stream = new RandomStream(1, 2, 3, 4);
    assertThat(stream.nextBits()).isEqualTo(41943041L);
    assertThat(stream.nextBits()).isEqualTo(58720359L);
    assertThat(stream.nextBits()).isEqualTo(3588806011781223L);
    assertThat(stream.nextBits()).isEqualTo(3591011842654386L);
  }

  /** Outputs that other implementations print for the seed 1234567; from memory. */
  @Test
  @Tag("published")
  void theSeedIsSpreadByTheKnownOutputsOfSplitMix64() {
    long golden = 0x9E3779B97F4A7C15L;
    assertThat(RandomStream.mix(1234567L + golden)).isEqualTo(6457827717110365317L);
    assertThat(RandomStream.mix(1234567L + 2 * golden)).isEqualTo(3203168211198807973L);
  }

  @Test
  @Tag("regression")
  void theSameSeedGivesTheSameBitsForEver() {
    RandomStream stream = RandomStream.of(42).child("unit").child(3);
    long hash = 0;
    for (int i = 0; i < 10_000; i++) {
      hash = 31 * hash + stream.nextBits();
      hash = 31 * hash + Double.doubleToLongBits(stream.gaussianRatio());
      hash = 31 * hash + Double.doubleToLongBits(stream.exponentialRatio());
      hash = 31 * hash + Double.doubleToLongBits(stream.gammaRatio(2.5));
      hash = 31 * hash + stream.poisson(50);
    }
    assertThat(hash).isEqualTo(8433850268316188292L);
  }

  @Test
  @Tag("property")
  void aChildDoesNotDependOnWhatItsParentHasDrawn() {
    RandomStream fresh = RandomStream.of(7);
    RandomStream used = RandomStream.of(7);
    used.nextBits();
    used.child("sister").gaussianRatio();
    assertThat(used.child("brother").nextBits()).isEqualTo(fresh.child("brother").nextBits());
    assertThat(used.child("brother").nextBits()).isNotEqualTo(fresh.child("sister").nextBits());
    assertThat(used.child(1).nextBits()).isNotEqualTo(fresh.child(2).nextBits());
  }

  @Test
  @Tag("analytic")
  void gaussianDeviatesHaveTheirMomentsAndTails() {
    RandomStream stream = RandomStream.of(11);
    double sum = 0;
    double squares = 0;
    double fourths = 0;
    int beyondTwo = 0;
    int beyondTail = 0;
    for (int i = 0; i < MANY; i++) {
      double x = stream.gaussianRatio();
      sum += x;
      squares += x * x;
      fourths += x * x * x * x;
      beyondTwo += Math.abs(x) > 2 ? 1 : 0;
      beyondTail += Math.abs(x) > 3.442619855899 ? 1 : 0;
    }
    // Four standard errors each.
    assertThat(sum / MANY).isCloseTo(0, within(4 / Math.sqrt(MANY)));
    assertThat(squares / MANY).isCloseTo(1, within(4 * Math.sqrt(2.0 / MANY)));
    assertThat(fourths / MANY).isCloseTo(3, within(4 * Math.sqrt(96.0 / MANY)));
    assertThat((double) beyondTwo / MANY).isCloseTo(0.0455003, within(4 * Math.sqrt(.0455 / MANY)));
    assertThat((double) beyondTail / MANY)
        .isCloseTo(0.000576, within(4 * Math.sqrt(.000576 / MANY)));
  }

  @Test
  @Tag("analytic")
  void otherLawsHaveTheirMeansAndVariances() {
    RandomStream stream = RandomStream.of(12);
    double uniform = 0;
    double exponential = 0;
    double gamma = 0;
    double gammaSquares = 0;
    double count = 0;
    double countSquares = 0;
    int many = 100_000;
    for (int i = 0; i < many; i++) {
      uniform += stream.uniformProbability();
      exponential += stream.exponentialRatio();
      double g = stream.gammaRatio(2.5);
      gamma += g;
      gammaSquares += (g - 2.5) * (g - 2.5);
      double n = stream.poisson(50);
      count += n;
      countSquares += (n - 50) * (n - 50);
    }
    assertThat(uniform / many).isCloseTo(0.5, within(4 * Math.sqrt(1.0 / 12 / many)));
    assertThat(exponential / many).isCloseTo(1, within(4 / Math.sqrt(many)));
    assertThat(gamma / many).isCloseTo(2.5, within(4 * Math.sqrt(2.5 / many)));
    assertThat(gammaSquares / many).isCloseTo(2.5, within(0.1));
    assertThat(count / many).isCloseTo(50, within(4 * Math.sqrt(50.0 / many)));
    assertThat(countSquares / many).isCloseTo(50, within(1.0));
  }

  @Test
  @Tag("contract")
  void valuesOutsideALawsRangeAreRefusedByName() {
    RandomStream stream = RandomStream.of(1);
    assertThat(stream.below(3)).isBetween(0, 2);
    assertThatIllegalArgumentException()
        .isThrownBy(() -> stream.below(0))
        .withMessageContaining("bound");
    assertThatIllegalArgumentException()
        .isThrownBy(() -> stream.gammaRatio(0.5))
        .withMessageContaining("0.5");
    assertThatIllegalArgumentException()
        .isThrownBy(() -> stream.poisson(-1))
        .withMessageContaining("-1");
  }
}
