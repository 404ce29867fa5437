package org.lonefibre.signal.filter;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.Random;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.lonefibre.signal.filter.ZeroPhase.Edge;

class ZeroPhaseTest {

  private static final SecondOrderSections FILTER =
      SecondOrderSections.highPass(2, 500, 50_000)
          .then(SecondOrderSections.lowPass(2, 10_000, 50_000));

  @Test
  @Tag("analytic")
  void cornersLoseThreeDecibelsAndTheMiddleNothing() {
    assertThat(SecondOrderSections.highPass(2, 500, 50_000).gainRatio(500, 50_000))
        .isCloseTo(Math.sqrt(0.5), within(1e-12));
    assertThat(SecondOrderSections.lowPass(3, 10_000, 50_000).gainRatio(10_000, 50_000))
        .isCloseTo(Math.sqrt(0.5), within(1e-12));
    assertThat(SecondOrderSections.notch(50, 2, 50_000).gainRatio(50, 50_000))
        .isCloseTo(0, within(1e-9));
    assertThat(FILTER.gainRatio(2500, 50_000)).isCloseTo(1, within(0.01));
  }

  @Test
  @Tag("analytic")
  void aConstantComesOutAsNothing() {
    double[] constant = new double[500];
    Arrays.fill(constant, 12_345.678);
    for (double value : new ZeroPhase(FILTER).filter(constant)) {
      assertThat(value).isCloseTo(0, within(1e-8));
    }
  }

  @Test
  @Tag("property")
  void aSymmetricPulseStaysSymmetricAroundItsPlace() {
    double[] pulse = new double[8001];
    for (int i = 0; i < pulse.length; i++) {
      double u = (i - 4000) / 4.0;
      pulse[i] = 500 * Math.exp(-u * u);
    }
    double[] out = new ZeroPhase(FILTER).filter(pulse);
    for (int k = 0; k < 3000; k++) {
      assertThat(out[4000 + k]).isCloseTo(out[4000 - k], within(1e-9));
    }
  }

  @Test
  @Tag("property")
  void aPieceWithItsOverlapComesOutAsInTheWhole() {
    double[] signal = new Random(3).doubles(20_000, -500, 500).toArray();
    ZeroPhase zeroPhase = new ZeroPhase(FILTER);
    double[] whole = zeroPhase.filter(signal);
    double[] causalWhole = new double[signal.length];
    double[] again = new double[signal.length];
    zeroPhase.filter(
        signal,
        signal.length,
        ZeroPhase.Edge.END,
        ZeroPhase.Edge.END,
        0,
        causalWhole,
        again,
        signal.length);
    assertThat(again).isEqualTo(whole);
    int overlap = zeroPhase.overlapLength();
    int from = 9000;
    int count = 700;
    double[] piece = Arrays.copyOfRange(signal, from - overlap, from + count + overlap);
    double[] causal = new double[piece.length];
    double[] filtered = new double[count];
    zeroPhase.filter(
        piece,
        piece.length,
        ZeroPhase.Edge.CONTINUES,
        ZeroPhase.Edge.CONTINUES,
        overlap,
        causal,
        filtered,
        count);
    for (int i = 0; i < count; i++) {
      assertThat(filtered[i]).isCloseTo(whole[from + i], within(500e-10));
      assertThat(causal[overlap + i]).isCloseTo(causalWhole[from + i], within(500e-10));
    }
  }

  @ParameterizedTest
  @CsvSource({"2, 500, 20001", "1, 1500, 9000", "2, 3000, 4097"})
  @Tag("property")
  void aLongSignalInTwoLanesComesOutAsInShortPieces(int order, double cornerHz, int length) {
    ZeroPhase zeroPhase =
        new ZeroPhase(
            SecondOrderSections.highPass(order, cornerHz, 50_000)
                .then(SecondOrderSections.lowPass(2, 10_000, 50_000)));
    double[] signal = new Random(length).doubles(length, 3_000, 4_000).toArray();
    double[] whole = new double[length];
    double[] wholeForward = new double[length];
    zeroPhase.filter(signal, length, Edge.END, Edge.END, 0, wholeForward, whole, length);
    int overlap = zeroPhase.overlapLength();
    for (int from = 0; from < length; from += 1024) {
      int first = Math.max(0, from - overlap);
      int end = Math.min(length, from + 1024 + overlap);
      int count = Math.min(1024, length - from);
      double[] forward = new double[end - first];
      double[] filtered = new double[count];
      zeroPhase.filter(
          Arrays.copyOfRange(signal, first, end),
          end - first,
          first == 0 ? Edge.END : Edge.CONTINUES,
          end == length ? Edge.END : Edge.CONTINUES,
          from - first,
          forward,
          filtered,
          count);
      for (int i = 0; i < count; i++) {
        assertThat(filtered[i]).isCloseTo(whole[from + i], within(1000e-10));
        assertThat(forward[from - first + i]).isCloseTo(wholeForward[from + i], within(1000e-10));
      }
    }
  }

  @Test
  @Tag("analytic")
  void aLongConstantComesOutAsNothing() {
    double[] constant = new double[50_000];
    Arrays.fill(constant, 12_345.678);
    for (double value : new ZeroPhase(FILTER).filter(constant)) {
      assertThat(value).isCloseTo(0, within(1e-8));
    }
  }

  @Test
  @Tag("contract")
  void aSignalOfOneSampleIsAllowed() {
    assertThat(new ZeroPhase(FILTER).filter(new double[] {7})).hasSize(1);
    assertThat(new ZeroPhase(FILTER).filter(new double[0])).isEmpty();
  }

  @Test
  @Tag("contract")
  void cornersOutsideTheRateAreRefusedByName() {
    assertThatIllegalArgumentException()
        .isThrownBy(() -> SecondOrderSections.lowPass(2, 10_000, 20_000))
        .withMessageContaining("10000.0 Hz")
        .withMessageContaining("20000.0 Hz");
    assertThatIllegalArgumentException()
        .isThrownBy(() -> SecondOrderSections.highPass(0, 500, 20_000))
        .withMessageContaining("1 to 12");
  }
}
