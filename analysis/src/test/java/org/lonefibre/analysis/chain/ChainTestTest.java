package org.lonefibre.analysis.chain;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.function.DoubleUnaryOperator;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.lonefibre.signal.filter.SecondOrderSections;
import org.lonefibre.signal.filter.ZeroPhase;
import org.lonefibre.signal.interpolation.FractionalDelay;
import org.lonefibre.signal.random.RandomStream;
import org.lonefibre.signal.recording.Channel.Calibration;

/** The test signal through steps that are known: each is measured, and named when it harms. */
class ChainTestTest {

  private static final double RATE_HZ = 50_000;
  private static final double STEP = 0.05;
  private static final SecondOrderSections HIGH_PASS =
      SecondOrderSections.highPass(2, 500, RATE_HZ);

  @Test
  void cleanChainIsClean() {
    ChainResult result = measure(steps(noisy(sent()), STEP), STEP);
    assertThat(result.steps()).isEmpty();
    assertThat(result.pairsFound()).isEqualTo(result.pairsSent());
    assertThat(result.trueRateHz()).isCloseTo(RATE_HZ, within(RATE_HZ * 1e-6));
    assertThat(result.highPassHz()).isNull();
    assertThat(result.lowPassHz()).isNull();
    assertThat(result.pulseUv()).isCloseTo(1000, within(5.0));
    assertThat(result.noiseRatio()).isCloseTo(0.002, within(0.0001));
    assertThat(result.stepRatio()).isCloseTo(STEP / 1000, within(STEP / 1e5));
    assertThat(result.smallestJitterUs()).isLessThan(0.3);
    assertThat(result.foundJitterUs()).isCloseTo(result.sentJitterUs(), within(0.3));
  }

  @Test
  void noiseSetsTheSmallestJitter() {
    double[] signal = sent();
    RandomStream random = RandomStream.of(9);
    for (int i = 0; i < signal.length; i++) {
      signal[i] += 30 * random.gaussianRatio();
    }
    ChainResult result = measure(signal, null);
    // Cramer-Rao: error of one time is noise / root of the sum of squared slopes.
    double slopes = 0;
    for (double u = -6; u < 6; u += 1 / 3.0) {
      double slope = (1 - u * u) * Math.exp((1 - u * u) / 2) * 1000 / 3;
      slopes += slope * slope;
    }
    double timeUs = 30 / Math.sqrt(slopes) * 20;
    double expectedUs = timeUs * Math.sqrt(2) * 2 / Math.sqrt(Math.PI);
    assertThat(result.smallestJitterUs()).isCloseTo(expectedUs, within(0.1 * expectedUs));
    assertThat(expectedUs).isBetween(result.smallestJitterLowUs(), result.smallestJitterHighUs());
  }

  @Test
  void filtersAreMeasured() {
    double[] once = new ZeroPhase(SecondOrderSections.highPass(1, 500, RATE_HZ)).filter(sent());
    ChainResult result = measure(noisy(causal(once, 8000)), null);
    // Order 1 forwards and backwards loses 3 dB where one pass loses 1.5 dB.
    assertThat(result.highPassHz()).isCloseTo(777, within(20.0));
    assertThat(result.lowPassHz()).isCloseTo(8000, within(240.0));
    assertThat(result.steps())
        .extracting(ChainStep::kind)
        .containsExactly(ChainStep.Kind.FILTERED_TWICE);
    assertThat(result.highPassOrder()).isEqualTo(1);
  }

  @Test
  void oneFilterIsNotTwo() {
    double[] twice = new ZeroPhase(HIGH_PASS).filter(sent());
    assertThat(measure(noisy(twice), null).steps())
        .extracting(ChainStep::kind)
        .containsExactly(ChainStep.Kind.FILTERED_TWICE);
    ChainResult single = measure(noisy(causal(sent(), 5000)), null);
    assertThat(single.steps()).isEmpty();
    assertThat(single.lowPassOrder()).isEqualTo(2);
  }

  @Test
  void clockIsMeasured() {
    ChainResult result = measure(noisy(read(sent(), at -> at * (1 - 50e-6))), null);
    assertThat(result.steps())
        .extracting(ChainStep::kind)
        .containsExactly(ChainStep.Kind.CLOCK_OFF);
    assertThat(result.trueRateHz() / RATE_HZ - 1).isCloseTo(50e-6, within(1e-6));
  }

  @Test
  void droppedSamplesAreCounted() {
    double[] signal = noisy(sent());
    int at = 300_000;
    double[] shorter = new double[signal.length - 7];
    System.arraycopy(signal, 0, shorter, 0, at);
    System.arraycopy(signal, at + 7, shorter, at, shorter.length - at);
    ChainResult result = measure(shorter, null);
    assertThat(result.steps())
        .singleElement()
        .satisfies(s -> assertThat(s.kind()).isEqualTo(ChainStep.Kind.SAMPLES_DROPPED))
        .satisfies(s -> assertThat(s.text()).contains("1 times, by -7.0 samples"));
    assertThat(result.trueRateHz()).isCloseTo(RATE_HZ, within(RATE_HZ * 1e-6));
  }

  @Test
  void coarseStepsAndClippingAreNamed() {
    ChainResult coarse = measure(steps(noisy(sent()), 16 * STEP), STEP);
    assertThat(coarse.steps())
        .extracting(ChainStep::kind)
        .containsExactly(ChainStep.Kind.COARSE_STEPS);
    assertThat(coarse.stepRatio()).isCloseTo(16 * STEP / 1000, within(STEP / 1000));
    double[] clipped =
        Arrays.stream(noisy(sent())).map(v -> Math.max(-600, Math.min(600, v))).toArray();
    assertThat(measure(clipped, null).steps())
        .extracting(ChainStep::kind)
        .containsExactly(ChainStep.Kind.CLIPPED);
  }

  @Test
  void resamplingIsNamed() {
    // Down to 10 kHz and up again by a windowed sinc: nothing is left above 5 kHz.
    double[] low = new ZeroPhase(SecondOrderSections.lowPass(8, 4300, RATE_HZ)).filter(sent());
    double[] few = new double[low.length / 5];
    for (int i = 0; i < few.length; i++) {
      few[i] = low[5 * i];
    }
    ChainResult result = measure(noisy(read(few, low.length, at -> at / 5)), null);
    assertThat(result.steps()).extracting(ChainStep::kind).contains(ChainStep.Kind.RESAMPLED);
    assertThat(result.lowPassHz()).isBetween(3500.0, 5000.0);
  }

  @Test
  void lossyCodingIsNamed() {
    // Mantissas of four bits, as codings for speech have: fine near 0, coarse for large values.
    double[] coded =
        Arrays.stream(noisy(sent()))
            .map(
                v ->
                    v == 0
                        ? 0
                        : Math.rint(v / Math.scalb(1, Math.getExponent(v) - 3))
                            * Math.scalb(1, Math.getExponent(v) - 3))
            .toArray();
    assertThat(measure(coded, null).steps())
        .extracting(ChainStep::kind)
        .containsExactly(ChainStep.Kind.LOSSY_CODING);
  }

  @Test
  void anotherSignalIsRefused() {
    assertThatThrownBy(() -> measure(noisy(new double[100_000]), null))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("pairs of the test signal");
  }

  private static ChainResult measure(double[] signal, @Nullable Double step) {
    return new ChainTest().measure(signal, RATE_HZ, step, Calibration.MICROVOLT);
  }

  private static double[] sent() {
    return Arrays.stream(new TestSignal().samplesRatio(RATE_HZ)).map(v -> 1000 * v).toArray();
  }

  private static double[] noisy(double[] signal) {
    RandomStream random = RandomStream.of(4);
    return Arrays.stream(signal).map(v -> v + 2 * random.gaussianRatio()).toArray();
  }

  private static double[] steps(double[] signal, double step) {
    return Arrays.stream(signal).map(v -> Math.rint(v / step) * step).toArray();
  }

  /** One pass of a filter of order 2, written out so that the test does not rest on the chain. */
  private static double[] causal(double[] signal, double cornerHz) {
    double k = Math.tan(Math.PI * cornerHz / RATE_HZ);
    double norm = 1 / (1 + Math.sqrt(2) * k + k * k);
    double[] out = new double[signal.length];
    for (int i = 2; i < signal.length; i++) {
      out[i] =
          norm * k * k * (signal[i] + 2 * signal[i - 1] + signal[i - 2])
              - 2 * norm * (k * k - 1) * out[i - 1]
              - norm * (1 - Math.sqrt(2) * k + k * k) * out[i - 2];
    }
    return out;
  }

  private static double[] read(double[] signal, DoubleUnaryOperator position) {
    return read(signal, signal.length, position);
  }

  private static double[] read(double[] signal, int length, DoubleUnaryOperator position) {
    FractionalDelay reading = new FractionalDelay();
    double[] one = new double[1];
    double[] out = new double[length];
    for (int i = 0; i < length; i++) {
      reading.read(signal, position.applyAsDouble(i), one, 1);
      out[i] = one[0];
    }
    return out;
  }
}
