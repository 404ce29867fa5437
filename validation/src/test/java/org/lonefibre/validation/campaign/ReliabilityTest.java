package org.lonefibre.validation.campaign;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Objects;
import org.junit.jupiter.api.Test;

class ReliabilityTest {

  private final Reliability reliability = new Reliability();

  @Test
  void whatIsSaidIsHeldBesideWhatIsReal() {
    for (int i = 0; i < 10; i++) {
      reliability.count(0.3, 1, i < 3);
      reliability.count(0.7, 1, i < 6);
    }
    assertThat(reliability.rows().get(1).cells())
        .containsExactly("0.2 to 0.4", "10", "0.300", "0.300");
    assertThat(reliability.rows().get(1).met()).isTrue();
    assertThat(reliability.rows().get(3).met()).isFalse();
  }

  /** Four of two fibres that stand for one: as likely as the one of one fibre. */
  @Test
  void whatStandsForFewerWeighsLess() {
    reliability.count(0.5, 1, true);
    for (int i = 0; i < 4; i++) {
      reliability.count(0.5, 0.25, false);
    }
    assertThat(reliability.rows().get(2).cells())
        .containsExactly("0.4 to 0.6", "5", "0.500", "0.500");
  }

  @Test
  void certaintyBelongsToTheLastClass() {
    reliability.count(1, 1, true);
    assertThat(reliability.rows().get(4).cells()).contains("1.000");
    assertThat(Objects.requireNonNull(reliability.rows().get(4).met())).isTrue();
  }
}
