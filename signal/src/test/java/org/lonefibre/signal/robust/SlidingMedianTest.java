package org.lonefibre.signal.robust;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.Arrays;
import java.util.Random;
import org.junit.jupiter.api.Test;

class SlidingMedianTest {

  @Test
  void isTheMedianOfWhatIsInTheWindow() {
    Random random = new Random(7);
    double[] values = random.doubles(300).map(x -> Math.rint(20 * x)).toArray();
    SlidingMedian window = new SlidingMedian(31);
    for (int i = 0; i < values.length; i++) {
      window.add(values[i]);
      if (i >= 31 - 1) {
        double expected = RobustStatistics.median(Arrays.copyOfRange(values, i - 30, i + 1));
        assertThat(window.median()).isEqualTo(expected);
        window.remove(values[i - 30]);
        assertThat(window.median())
            .isEqualTo(RobustStatistics.median(Arrays.copyOfRange(values, i - 29, i + 1)));
      }
    }
  }

  @Test
  void oneMayGoAsAnotherComes() {
    Random random = new Random(8);
    double[] values = random.doubles(500).map(x -> Math.rint(20 * x)).toArray();
    SlidingMedian window = new SlidingMedian(31);
    for (int i = 0; i < values.length; i++) {
      if (i < 31) {
        window.add(values[i]);
      } else {
        window.replace(values[i - 31], values[i]);
        assertThat(window.median())
            .isEqualTo(RobustStatistics.median(Arrays.copyOfRange(values, i - 30, i + 1)));
      }
    }
    assertThatThrownBy(() -> window.replace(0.5, 1)).isInstanceOf(IllegalArgumentException.class);
  }

  @Test
  void refusesWhatItCannotHoldAndWhatItDoesNotHold() {
    SlidingMedian window = new SlidingMedian(1);
    assertThatThrownBy(window::median).isInstanceOf(IllegalStateException.class);
    window.add(1);
    assertThatThrownBy(() -> window.add(2)).isInstanceOf(IllegalStateException.class);
    assertThatThrownBy(() -> window.remove(2)).isInstanceOf(IllegalArgumentException.class);
  }
}
