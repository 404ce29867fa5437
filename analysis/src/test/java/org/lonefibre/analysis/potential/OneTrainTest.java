package org.lonefibre.analysis.potential;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Arrays;
import java.util.Random;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;

/** Parts of one unit take turns and never fire together; two units do as chance has it. */
@Tag("unit")
class OneTrainTest {

  private static final double SAME = 150;
  private static final double SHIFT = 40;

  private final Random random = new Random(7);

  @Test
  void partsOfOneUnitAreOneTrain() {
    double[] all = train(120, 5000);
    boolean[] first = new boolean[all.length];
    for (int d = 0; d < all.length; d++) {
      first[d] = random.nextDouble() < 0.6;
    }
    UnitTrack one = unit(chosen(all, first, true), 0);
    UnitTrack other = unit(chosen(all, first, false), SHIFT);
    assertThat(OneTrain.discharges(one, other, SHIFT, SAME)).hasSize(other.discharges);
  }

  /** A discharge of the first that the second holds as well is not a discharge more. */
  @Test
  void whatIsSeenTwiceIsOneDischarge() {
    double[] all = train(120, 5000);
    UnitTrack one =
        unit(IntStream.range(0, 90).mapToDouble(d -> all[d / 3 * 4 + d % 3]).toArray(), 0);
    double[] others =
        IntStream.range(0, 120)
            .filter(d -> d % 4 == 3 || d % 10 == 0)
            .mapToDouble(d -> all[d])
            .toArray();
    long twice =
        Arrays.stream(others).filter(t -> Arrays.binarySearch(one.reference, t) >= 0).count();
    int[] more = OneTrain.discharges(one, unit(others, 0), 0, SAME);
    assertThat(twice).isPositive();
    assertThat(more).hasSize(others.length - (int) twice);
  }

  @Test
  void twoUnitsAreNot() {
    UnitTrack one = unit(train(120, 5000), 0);
    UnitTrack other = unit(train(110, 5500), SHIFT);
    assertThat(OneTrain.discharges(one, other, SHIFT, SAME)).isEmpty();
  }

  /** One unit may begin when another has stopped. */
  @Test
  void unitsThatFireOneAfterTheOtherAreNot() {
    double[] all = train(120, 5000);
    UnitTrack one = unit(Arrays.copyOf(all, 60), 0);
    UnitTrack other = unit(Arrays.copyOfRange(all, 60, 120), 0);
    assertThat(OneTrain.discharges(one, other, 0, SAME)).isEmpty();
  }

  private double[] train(int discharges, double interval) {
    double[] times = new double[discharges];
    double time = 1000 + 2000 * random.nextDouble();
    for (int d = 0; d < discharges; d++) {
      times[d] = time;
      time += interval * (1 + 0.12 * Math.max(-2.5, Math.min(2.5, random.nextGaussian())));
    }
    return times;
  }

  private static double[] chosen(double[] all, boolean[] which, boolean wanted) {
    return IntStream.range(0, all.length)
        .filter(d -> which[d] == wanted)
        .mapToDouble(d -> all[d])
        .toArray();
  }

  private static UnitTrack unit(double[] times, double shift) {
    double[] reference = Arrays.stream(times).map(time -> time + shift).toArray();
    return new UnitTrack(reference, new int[times.length], new double[] {0});
  }
}
