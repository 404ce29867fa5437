package org.lonefibre.signal.interpolation;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import org.junit.jupiter.api.Test;

class FractionalDelayTest {

  private static final int LENGTH = 100;

  private final FractionalDelay delay = new FractionalDelay();

  /** Tag analytic: a sine of half the Nyquist frequency, at kernels kept and at those made anew. */
  @Test
  void readsASineBetweenItsSamples() {
    for (int step = 0; step <= 200; step++) {
      double fraction = step / 200.0;
      double[] read = read(20 + fraction);
      for (int k = 0; k < read.length; k++) {
        assertThat(read[k]).isCloseTo(sine(20 + fraction + k), within(1e-3));
      }
    }
  }

  /**
   * A kernel that is kept is the one that would be made: a shift beside it gives nearly the same.
   */
  @Test
  void kernelsThatAreKeptAreThoseThatAreMade() {
    for (int step = 1; step < 64; step++) {
      double[] kept = read(20 + step / 64.0);
      double[] made = read(20 + step / 64.0 + 1e-11);
      for (int k = 0; k < kept.length; k++) {
        assertThat(made[k]).isCloseTo(kept[k], within(1e-10));
      }
    }
  }

  /** Samples outside count as zero. */
  @Test
  void findsNothingFarOutside() {
    assertThat(Arrays.stream(read(LENGTH + 12.5)).allMatch(value -> value == 0)).isTrue();
  }

  private double[] read(double start) {
    double[] samples = new double[LENGTH];
    Arrays.setAll(samples, FractionalDelayTest::sine);
    double[] read = new double[40];
    delay.read(samples, start, read, read.length);
    return read;
  }

  private static double sine(double place) {
    return Math.sin(Math.PI / 2 * place + 0.3);
  }
}
