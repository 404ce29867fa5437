package org.lonefibre.analysis.reference;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class BesideLimitTest {

  @ParameterizedTest
  @CsvSource({
    "30.26, 35.9, 30.3",
    "35.9, 35.9, 35.9",
    "35.92, 35.9, 35.92",
    "35.90247, 35.9, 35.902",
    "35.8961, 35.9, 35.896",
    "52.45, 52.5, 52.45"
  })
  void theSideOfTheLimitShows(double valueUs, double limitUs, String shown) {
    assertThat(BesideLimit.text(valueUs, limitUs)).isEqualTo(shown);
  }
}
