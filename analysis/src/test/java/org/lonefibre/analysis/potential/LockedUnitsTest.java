package org.lonefibre.analysis.potential;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Arrays;
import java.util.Objects;
import java.util.function.IntToDoubleFunction;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;

/** Two units of 40 discharges each, 125 samples (2.5 ms) apart in some of them. */
@Tag("unit")
class LockedUnitsTest {

  private static final int DISCHARGES = 40;
  private static final double INTERVAL_SAMPLES = 5000;
  private static final double DELAY_SAMPLES = 125;
  private static final double ELSEWHERE_SAMPLES = 1700;

  private final LockedUnits locked = new LockedUnits(0.05, 300, 0.85);

  private static UnitTrack unit(IntToDoubleFunction moved) {
    double[] reference =
        IntStream.range(0, DISCHARGES)
            .mapToDouble(d -> 1000 + INTERVAL_SAMPLES * d + moved.applyAsDouble(d))
            .toArray();
    return new UnitTrack(reference, new int[DISCHARGES], new double[] {0});
  }

  private static UnitTrack other(int wrong) {
    return unit(d -> d % 20 < wrong ? ELSEWHERE_SAMPLES : DELAY_SAMPLES);
  }

  private @Nullable UnitTrack join(int wrongOfTwenty) {
    return locked.join(unit(d -> 0), other(wrongOfTwenty));
  }

  @Test
  void unitsThatFireTogetherInMostDischargesOfBothAreOne() {
    for (int wrong : new int[] {0, 3, 7}) {
      assertThat(Objects.requireNonNull(join(wrong)).lag).containsExactly(0, DELAY_SAMPLES);
    }
  }

  @Test
  void unitsThatShareHalfTheirDischargesStayTwo() {
    assertThat(join(10)).isNull();
  }

  @Test
  void aSmallUnitThatFiresWithHalfItsDischargesStaysApart() {
    UnitTrack whole = other(10);
    UnitTrack few =
        whole.withDischarges(
            Arrays.copyOf(whole.reference, 20), new int[20], IntStream.range(0, 20).toArray());
    assertThat(locked.join(unit(d -> 0), few)).isNull();
  }

  @Test
  void unitsEachNowAtOneNowAtTheOtherPotentialAreOne() {
    UnitTrack one = unit(d -> d % 2 == 0 ? 0 : DELAY_SAMPLES);
    UnitTrack other = unit(d -> d % 2 == 0 ? DELAY_SAMPLES : 0);
    assertThat(locked.join(one, other)).isNull();
    UnitTrack joined = Objects.requireNonNull(locked.joinMirrored(one, other));
    assertThat(joined.lag).containsExactly(0, DELAY_SAMPLES);
    assertThat(joined.reference).containsExactly(unit(d -> 0).reference);
    assertThat(joined.arrival[1][0]).isEqualTo(joined.reference[1]);
  }

  @Test
  void unitsThatFireAtAnyTimeOfEachOtherAreNotMirrored() {
    UnitTrack other = unit(d -> 37 * (d % 13) - 250);
    assertThat(locked.joinMirrored(unit(d -> 0), other)).isNull();
  }
}
