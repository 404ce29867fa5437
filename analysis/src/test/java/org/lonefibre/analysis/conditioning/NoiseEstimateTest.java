package org.lonefibre.analysis.conditioning;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.lonefibre.signal.filter.SecondOrderSections;
import org.lonefibre.signal.filter.ZeroPhase;
import org.lonefibre.signal.filter.ZeroPhase.Edge;

class NoiseEstimateTest {

  private static final ConditioningSettings SINGLE_FIBRE = ConditioningSettings.singleFibre();

  /** Against the true spread of the noise alone, filtered alike. */
  @ParameterizedTest(name = "{0} Hz, {1} s, {2} units at {3} Hz, seed {4}")
  @Tag("property")
  @CsvSource({
    "50000, 60, 0, 10, 1",
    "50000, 60, 3, 10, 2",
    "50000, 20, 3, 10, 3",
    "50000, 6, 3, 10, 4",
    "20000, 20, 3, 10, 5",
    "100000, 20, 3, 10, 6",
    "48828.125, 20, 3, 15, 7"
  })
  void firingDoesNotInflateTheNoise(
      double rateHz, double durationS, int units, double firingHz, long seed) throws IOException {
    Site site = new Site(rateHz, durationS, seed).noise(25);
    double lowPassHz = Math.min(10_000, 0.45 * rateHz);
    SecondOrderSections filter =
        SecondOrderSections.highPass(2, 500, rateHz)
            .then(SecondOrderSections.lowPass(2, lowPassHz, rateHz));
    int length = site.samples.length;
    double[] noise = new double[length];
    double[] causal = new double[length];
    new ZeroPhase(filter)
        .filter(site.samples, length, Edge.END, Edge.END, 0, causal, noise, length);
    double squares = sumOfSquares(noise);
    double expected = Math.sqrt(squares / noise.length);
    double expectedCausal = Math.sqrt(sumOfSquares(causal) / causal.length);
    for (int u = 0; u < units; u++) {
      site.unit(firingHz, 4, 1500.0 / (1 + u));
    }
    ConditionedSignal signal = condition(site);
    assertThat(signal.noiseUv() / expected).isCloseTo(1, within(0.03));
    assertThat(signal.causalNoiseUv() / expectedCausal).isCloseTo(1, within(0.03));
    double[] correlation = signal.noiseAutocorrelation(40);
    assertThat(correlation).hasSize(41);
    assertThat(correlation[0]).isEqualTo(1);
    for (int lag : new int[] {1, 2, 3, 10, 40}) {
      double products = 0;
      for (int i = 0; i + lag < noise.length; i++) {
        products += noise[i] * noise[i + lag];
      }
      assertThat(correlation[lag]).isCloseTo(products / squares, within(0.03));
    }
  }

  /** Many potentials that seldom reach what counts as large: 5 times the noise in all. */
  @Test
  @Tag("property")
  void smallPotentialsColourTheNoiseUntilTheyAreKnown() throws IOException {
    double rateHz = 50_000;
    Site empty = new Site(rateHz, 20, 8).noise(25);
    Site site = new Site(rateHz, 20, 8).noise(25);
    double[] arrivals = new double[1900];
    for (int i = 0; i < arrivals.length; i++) {
      double timeS = 0.02 + 0.01037 * i;
      site.potential(timeS, 80);
      arrivals[i] = timeS * rateHz;
    }
    int lags = 60;
    double[] expected = condition(empty).noiseAutocorrelation(lags);
    ConditionedSignal signal = condition(site);
    double unknown = largestDistance(signal.noiseAutocorrelation(lags), expected);
    double known = largestDistance(signal.noiseAutocorrelation(lags, arrivals), expected);
    assertThat(unknown).isGreaterThan(0.03);
    assertThat(known).isLessThan(0.015);
  }

  private static ConditionedSignal condition(Site site) throws IOException {
    MemoryRecording recording = site.recording();
    return new Conditioner(SINGLE_FIBRE).condition(recording, recording.channel());
  }

  private static double largestDistance(double[] found, double[] expected) {
    double largest = 0;
    for (int i = 0; i < found.length; i++) {
      largest = Math.max(largest, Math.abs(found[i] - expected[i]));
    }
    return largest;
  }

  private static double sumOfSquares(double[] x) {
    double sum = 0;
    for (double value : x) {
      sum += value * value;
    }
    return sum;
  }
}
